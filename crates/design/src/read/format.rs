//! The `format` line.

use super::fields::{Fields, wrong_type};
use crate::diagnostic::Log;
use crate::fault::TextFault;
use crate::format::FORMAT;

/// Whether the rest of the file can be read; notes why not.
pub(crate) fn is_known(top: &Fields<'_>, log: &mut Log) -> bool {
    let Some(entry) = top.entry("format") else {
        if !top.is_broken() {
            log.add(TextFault::FormatMissing, top.header());
        }
        return true;
    };
    let Some(found) = entry.item.as_integer() else {
        wrong_type(&entry, "format", "a whole number without quotes", "1", log);
        return true;
    };
    if found > FORMAT {
        log.add(TextFault::FormatNewer { found }, entry.place());
        return false;
    }
    if found < FORMAT {
        let found = found.to_string();
        log.add(TextFault::FormatUnknown { found }, entry.place());
    }
    true
}

//! `boxwright shelf`.

use super::Ending;
use crate::cli::{DesignArgs, ShelfArgs};
use crate::failure::{Failure, Named, Project};
use crate::parts::{self, Part};
use crate::{files, json, likeness, say, terminal};

pub(crate) fn run(args: &ShelfArgs, as_json: bool) -> Result<Ending, Failure> {
    let own = files::shelf_for(&DesignArgs {
        design: args.design.clone(),
        shelf: args.shelf.clone(),
    })?;
    let shelf = read(own)?;
    let parts = parts::all(&shelf);
    let chosen = match &args.name {
        None => parts,
        Some(name) => named(parts, name)?,
    };
    terminal::say(&match (as_json, args.name.is_some()) {
        (true, _) => json::shelf(&chosen),
        (false, true) => say::parts(&chosen, terminal::ink()),
        (false, false) => say::shelf(&chosen, terminal::ink()),
    })?;
    Ok(Ending::Well)
}

fn read(own: Option<Named>) -> Result<design::Shelf, Failure> {
    let text = own.as_ref().map(|own| own.text.as_str());
    design::read_shelf(text).map_err(|found| {
        let nothing = Named {
            name: files::DESIGN.into(),
            text: String::new(),
        };
        let project = Project {
            design: nothing,
            shelf: own,
        };
        Failure::Texts(Box::new(project), found)
    })
}

/// Parts of this name; two kinds of part may share one.
fn named(parts: Vec<Part>, name: &str) -> Result<Vec<Part>, Failure> {
    let names: Vec<String> = parts.iter().map(|part| part.name.clone()).collect();
    let found: Vec<Part> = parts.into_iter().filter(|part| part.name == name).collect();
    if found.is_empty() {
        let names = names.iter().map(String::as_str);
        return Err(Failure::mended(
            format!("there is no part {name:?} on the shelf"),
            likeness::did_you_mean(name, names, "boxwright shelf lists the parts"),
        ));
    }
    Ok(found)
}

//! Names, words, counts and yes-or-no: everything without a unit.

use super::fields::{Element, Fields, wrong_type};
use super::nearest::nearest;
use crate::diagnostic::Log;
use crate::fault::{TextFault, WoodFault};
use crate::{Choice, Text};

impl Element<'_> {
    /// One of a list of words; nothing when it is none of them.
    fn word<T: Copy>(
        &self,
        key: &'static str,
        words: &[(&'static str, T)],
        log: &mut Log,
    ) -> Option<Choice<T>> {
        let list: Vec<&'static str> = words.iter().map(|(word, _)| *word).collect();
        let Some(text) = self.as_str() else {
            let example = format!("\"{}\"", list.first().copied().unwrap_or_default());
            self.wrong_type(key, "a word in quotes", &example, log);
            return None;
        };
        if let Some((_, value)) = words.iter().find(|(word, _)| *word == text) {
            return Some(Choice {
                value: *value,
                place: Some(self.place()),
            });
        }
        let fault = TextFault::ChoiceUnknown {
            key: key.to_owned(),
            word: text.to_owned(),
            nearest: nearest(text, list.iter().copied()),
            words: list,
        };
        log.add(fault, self.place());
        None
    }
}

impl Fields<'_> {
    /// A text that may be absent.
    pub(crate) fn text(&self, key: &'static str, log: &mut Log) -> Option<Text> {
        let entry = self.entry(key)?;
        let Some(text) = entry.item.as_str() else {
            wrong_type(&entry, key, "a text in quotes", "\"…\"", log);
            return None;
        };
        if text.trim().is_empty() {
            let key = key.to_owned();
            log.add(TextFault::NameEmpty { key }, entry.place());
            return None;
        }
        Some(Text {
            text: text.to_owned(),
            place: entry.place(),
        })
    }

    /// Notes a key that changes nothing unless something else is said.
    pub(crate) fn without_use(
        &self,
        key: &'static str,
        used: bool,
        wants: &'static str,
        log: &mut Log,
    ) {
        if let Some(entry) = self.entry(key)
            && !used
        {
            log.add(
                WoodFault::WithoutUse { key, wants },
                entry.element().place(),
            );
        }
    }

    /// A text that must be there.
    pub(crate) fn need_text(
        &self,
        key: &'static str,
        example: &'static str,
        log: &mut Log,
    ) -> Option<Text> {
        if self.entry(key).is_none() {
            self.missing(key, example, log);
        }
        self.text(key, log)
    }

    /// One of a list of words; nothing when absent or not on the list.
    pub(crate) fn word<T: Copy>(
        &self,
        key: &'static str,
        words: &[(&'static str, T)],
        log: &mut Log,
    ) -> Option<Choice<T>> {
        self.entry(key)?.element().word(key, words, log)
    }

    /// One of a list of words, or the default.
    pub(crate) fn word_or<T: Copy>(
        &self,
        key: &'static str,
        words: &[(&'static str, T)],
        default: T,
        log: &mut Log,
    ) -> Choice<T> {
        self.word(key, words, log).unwrap_or(Choice {
            value: default,
            place: None,
        })
    }

    /// Several of a list of words; a single one stands for a list of one.
    pub(crate) fn words<T: Copy>(
        &self,
        key: &'static str,
        words: &[(&'static str, T)],
        log: &mut Log,
    ) -> Vec<Choice<T>> {
        let Some(entry) = self.entry(key) else {
            return Vec::new();
        };
        let elements = entry.elements();
        let chosen = elements
            .iter()
            .filter_map(|element| element.word(key, words, log));
        chosen.collect()
    }

    /// One of a list of words that must be said.
    pub(crate) fn need_word<T: Copy>(
        &self,
        key: &'static str,
        words: &[(&'static str, T)],
        log: &mut Log,
    ) -> Option<Choice<T>> {
        if self.entry(key).is_none() {
            let first = words.first().map_or("", |(word, _)| *word);
            self.missing(key, format!("\"{first}\""), log);
        }
        self.word(key, words, log)
    }

    /// True or false.
    pub(crate) fn flag(&self, key: &'static str, default: bool, log: &mut Log) -> Choice<bool> {
        let default = Choice {
            value: default,
            place: None,
        };
        let Some(entry) = self.entry(key) else {
            return default;
        };
        match entry.item.as_bool() {
            Some(value) => Choice {
                value,
                place: Some(entry.place()),
            },
            None => {
                wrong_type(&entry, key, "true or false, without quotes", "true", log);
                default
            }
        }
    }

    /// A whole number that must be there.
    pub(crate) fn need_count(
        &self,
        key: &'static str,
        least: u32,
        most: u32,
        log: &mut Log,
    ) -> Option<u32> {
        if self.entry(key).is_none() {
            self.missing(key, least.max(1).to_string(), log);
        }
        self.count(key, least, most, log)
    }

    /// A whole number within bounds; nothing when absent or bad.
    pub(crate) fn count(
        &self,
        key: &'static str,
        least: u32,
        most: u32,
        log: &mut Log,
    ) -> Option<u32> {
        let entry = self.entry(key)?;
        let Some(found) = entry.item.as_integer() else {
            let example = least.max(1).to_string();
            wrong_type(&entry, key, "a whole number without quotes", &example, log);
            return None;
        };
        match u32::try_from(found) {
            Ok(count) if (least..=most).contains(&count) => Some(count),
            _ => {
                let fault = TextFault::CountRange {
                    key: key.to_owned(),
                    found,
                    least,
                    most,
                };
                log.add(fault, entry.place());
                None
            }
        }
    }
}

//! The subcommands, one a file: what each reads, prints and returns.

use std::ffi::OsStr;

use clap::builder::{NonEmptyStringValueParser, PossibleValue, TypedValueParser};
use clap::{Arg, Command};

pub(crate) mod backup;
pub(crate) mod check;
pub(crate) mod completions;
pub(crate) mod demo;
pub(crate) mod documents;
pub(crate) mod explain;
pub(crate) mod new;
pub(crate) mod schema;
pub(crate) mod serve;
pub(crate) mod tables;
pub(crate) mod worksheet;

/// The name nearest to a misspelt one, if it is near at all.
fn nearest<'a>(word: &str, known: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    known
        .map(|name| (strsim::normalized_damerau_levenshtein(word, name), name))
        .filter(|(score, _)| *score >= 0.5)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, name)| name)
}

/// What to do about an unknown name: the nearest one, or where the list is.
fn did_you_mean<'a>(
    word: &str,
    known: impl Iterator<Item = &'a str>,
    otherwise: impl FnOnce() -> String,
) -> String {
    nearest(word, known).map_or_else(otherwise, |near| format!("did you mean {near}?"))
}

/// Takes any word but the empty one, which no name is, and tells a shell which names there are.
///
/// The command itself refuses an unknown name, because it knows the nearest one and where the list is.
#[derive(Debug, Clone, Copy)]
struct NameOf(fn() -> Vec<String>);

impl TypedValueParser for NameOf {
    type Value = String;

    fn parse_ref(
        &self,
        command: &Command,
        argument: Option<&Arg>,
        typed: &OsStr,
    ) -> Result<String, clap::Error> {
        NonEmptyStringValueParser::new().parse_ref(command, argument, typed)
    }

    fn possible_values(&self) -> Option<Box<dyn Iterator<Item = PossibleValue> + '_>> {
        Some(Box::new((self.0)().into_iter().map(PossibleValue::new)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_misspelt_name_finds_the_nearest_and_nonsense_finds_none() {
        let known = || ["pull.rig", "pull.rods", "line.cover"].into_iter();
        assert_eq!(nearest("pul.rig", known()), Some("pull.rig"));
        assert_eq!(nearest("weather", known()), None);
    }
}

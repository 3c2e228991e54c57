//! The subcommands, one a file: what each reads, prints and returns.

use clap::builder::NonEmptyStringValueParser;

pub(crate) mod check;
pub(crate) mod completions;
pub(crate) mod demo;
pub(crate) mod explain;
pub(crate) mod new;
pub(crate) mod schema;
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

/// Refuses an empty word, which no name is.
fn a_name() -> NonEmptyStringValueParser {
    NonEmptyStringValueParser::new()
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

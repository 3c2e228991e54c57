//! Texts of anybody made fit for paper: no sign is lost without a mark, and no word is wider than its column.

use std::cell::Cell;

use serde_json::Value;

use crate::typesetter::has_sign;

/// Stands for a character that no font of this program has.
pub(crate) const MARK: char = '□';

/// Longest word that is left as it is; longer ones may be broken anywhere after so many characters.
const LONGEST: usize = 24;

/// Where a word may be broken without a hyphen.
const BREAK: char = '\u{200b}';

/// Prepares texts and counts what cannot be shown.
#[derive(Debug, Default)]
pub(crate) struct Letters {
    missing: Cell<usize>,
}

impl Letters {
    /// How many characters could not be shown so far.
    pub(crate) fn missing(&self) -> usize {
        self.missing.get()
    }

    /// A text in one line.
    pub(crate) fn line(&self, text: &str) -> String {
        self.prepared(text, LONGEST)
    }

    /// A text in one line with at most `most` characters; what is longer ends in "…".
    pub(crate) fn shortened(&self, text: &str, most: usize) -> String {
        let kept = if text.chars().count() > most {
            let start: String = text.chars().take(most.saturating_sub(1)).collect();
            format!("{}…", start.trim_end())
        } else {
            text.to_owned()
        };
        // The whole text stands elsewhere, where what is missing is counted.
        Self::default().line(&kept)
    }

    /// A text with the lines of its author.
    pub(crate) fn lines(&self, text: &str) -> Value {
        text.lines().map(|line| self.line(line)).collect()
    }

    /// A sentence: a capital in front and a full stop behind.
    pub(crate) fn sentence(&self, text: &str) -> String {
        let line = self.line(text);
        let mut rest = line.chars();
        let Some(first) = rest.next() else { return line };
        let stop = if line.ends_with(['.', '!', '?', ':']) { "" } else { "." };
        format!("{}{}{stop}", first.to_uppercase(), rest.as_str())
    }

    /// An id or a path, which may be broken after its points, lines and strokes.
    pub(crate) fn id(&self, text: &str) -> String {
        self.prepared(text, LONGEST)
    }

    fn prepared(&self, text: &str, longest: usize) -> String {
        let mut out = String::with_capacity(text.len());
        let mut run = 0;
        for c in text.trim().chars() {
            let shown = self.sign(c);
            run = if shown == ' ' || matches!(shown, '-' | '–' | '/') { 0 } else { run + 1 };
            if run > longest {
                out.push(BREAK);
                run = 1;
            }
            out.push(shown);
        }
        out
    }

    fn sign(&self, c: char) -> char {
        if c == '\n' || c == '\r' || c == '\t' || c == ' ' || c == '\u{a0}' {
            return ' ';
        }
        if c == BREAK || (!c.is_control() && has_sign(c)) {
            return c;
        }
        self.missing.set(self.missing.get() + 1);
        MARK
    }
}

/// A value with its unit as a printed page has it: `7 kg/m³`, `−3°`.
pub(crate) fn printed(value: &str) -> String {
    let value = value.strip_prefix('-').map_or_else(|| value.to_owned(), |rest| format!("−{rest}"));
    if let Some(number) = value.strip_suffix(" deg") {
        return format!("{number}°");
    }
    let Some((number, unit)) = value.split_once(' ') else { return value };
    format!(
        "{number}\u{a0}{}",
        unit.replace("m2", "m²")
            .replace("m3", "m³")
            .replace("ft2", "ft²")
            .replace("ft3", "ft³")
            .replace("in2", "in²")
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_no_font_has_is_marked_and_counted() {
        let letters = Letters::default();
        assert_eq!(letters.line("bore 12 ≤ 20°"), "bore 12 ≤ 20°");
        assert_eq!(letters.missing(), 0);
        assert_eq!(letters.line("a\u{0}b\u{1f6a7}漢c"), "a□b□□c");
        assert_eq!(letters.missing(), 3);
        assert!(has_sign(MARK));
    }

    #[test]
    fn long_words_may_be_broken_and_short_ones_stay_whole() {
        let letters = Letters::default();
        let long = letters.line(&"x".repeat(100));
        assert_eq!(long.matches(BREAK).count(), 4);
        assert_eq!(long.replace(BREAK, ""), "x".repeat(100));
        let id = "fluid.limit-pressure.ream-1";
        assert_eq!(letters.line(id), id);
    }

    #[test]
    fn values_get_the_signs_of_print() {
        assert_eq!(printed("-7 m"), "−7\u{a0}m");
        assert_eq!(printed("1204 kg/m3"), "1204\u{a0}kg/m³");
        assert_eq!(printed("12 deg"), "12°");
        assert_eq!(printed("0.3"), "0.3");
        assert_eq!(Letters::default().sentence("the end"), "The end.");
    }

    #[test]
    fn shortened_texts_end_in_dots() {
        let letters = Letters::default();
        assert_eq!(letters.shortened("Tidal creek", 60), "Tidal creek");
        assert_eq!(letters.shortened("Tidal creek", 7), "Tidal…");
    }
}

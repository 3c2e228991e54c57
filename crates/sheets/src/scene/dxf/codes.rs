//! Pairs of group code and value, and text that is safe in them.

use std::fmt::Write;

use crate::scene::text::clean;

/// Longest name of an entry of a table, characters.
const LONGEST_NAME: usize = 255;
/// Longest text of an entity, characters; readers of old take no more than 2049 bytes.
const LONGEST_TEXT: usize = 500;

/// A part of a file.
#[derive(Debug, Default)]
pub(super) struct Codes {
    pub(super) out: String,
}

impl Codes {
    pub(super) fn text(&mut self, code: u16, value: &str) -> &mut Self {
        let _ = write!(self.out, "{code:>3}\n{value}\n");
        self
    }

    pub(super) fn whole(&mut self, code: u16, value: i64) -> &mut Self {
        let _ = write!(self.out, "{code:>3}\n{value}\n");
        self
    }

    pub(super) fn handle(&mut self, code: u16, value: u64) -> &mut Self {
        let _ = write!(self.out, "{code:>3}\n{value:X}\n");
        self
    }

    pub(super) fn real(&mut self, code: u16, value: f64) -> &mut Self {
        let mut digits = format!("{:.8}", if value.is_finite() { value } else { 0.0 });
        digits.truncate(digits.trim_end_matches('0').len());
        if digits.ends_with('.') {
            digits.push('0');
        }
        let digits = if digits == "-0.0" { "0.0" } else { &digits };
        self.text(code, digits)
    }

    /// A point of the plane.
    pub(super) fn flat(&mut self, code: u16, x: f64, y: f64) -> &mut Self {
        self.real(code, x).real(code + 10, y)
    }

    /// A point of space on level 0.
    pub(super) fn point(&mut self, code: u16, x: f64, y: f64) -> &mut Self {
        self.flat(code, x, y).real(code + 20, 0.0)
    }

    /// Subclass markers.
    pub(super) fn class(&mut self, name: &str) -> &mut Self {
        self.text(100, name)
    }
}

/// Hands out handles.
#[derive(Debug)]
pub(super) struct Handles(pub(super) u64);

impl Handles {
    pub(super) fn next(&mut self) -> u64 {
        self.0 += 1;
        self.0
    }
}

/// A name for a table: without signs that names must not have, not empty, not too long.
pub(super) fn table_name(words: &str) -> String {
    let name: String = clean(words)
        .chars()
        .map(|c| if "<>/\\\":;?*|=,`'".contains(c) { '-' } else { c })
        .take(LONGEST_NAME)
        .collect();
    let name = name.trim().to_owned();
    if name.is_empty() { "-".to_owned() } else { name }
}

fn limited(words: &str) -> String {
    let words = clean(words);
    if words.chars().count() <= LONGEST_TEXT {
        return words;
    }
    words.chars().take(LONGEST_TEXT - 1).chain(['…']).collect()
}

/// Words of one line: no beginning of a control sequence is left in them.
pub(super) fn line_of(words: &str) -> String {
    let mut words = limited(words).replace('^', "^ ");
    while words.contains("%%") {
        words = words.replace("%%", "% %");
    }
    words.replace("\\U+", "\\ U+").replace("\\M+", "\\ M+")
}

/// Words of a paragraph or of a dimension: signs that format are escaped.
pub(super) fn paragraph_of(words: &str) -> String {
    let mut out = String::new();
    for c in line_of(words).chars() {
        if matches!(c, '\\' | '{' | '}') {
            out.push('\\');
        }
        out.push(c);
    }
    // The measured value would take its place.
    out.replace("<>", "< >").replace("[]", "[ ]")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_and_words_lose_what_readers_would_act_upon() {
        assert_eq!(table_name("a<b>/\"c\":;?*|=\u{0}"), "a-b---c-------");
        assert_eq!(table_name(" \n"), "-");
        assert_eq!(table_name(&"x".repeat(400)).len(), 255);
        assert_eq!(line_of("a\r\nb^J 50 %%d %%%%"), "a b^ J 50 % %d % % % %");
        assert_eq!(paragraph_of("{\\fArial;<>}"), "\\{\\\\fArial;< >\\}");
        assert_eq!(line_of(&"w".repeat(10_000)).chars().count(), 500);
    }

    #[test]
    fn numbers_are_plain() {
        let mut codes = Codes::default();
        codes.real(40, 0.1 + 0.2).real(40, -0.0).real(40, f64::NAN).real(40, 12.0);
        assert_eq!(codes.out, " 40\n0.3\n 40\n0.0\n 40\n0.0\n 40\n12.0\n");
    }
}

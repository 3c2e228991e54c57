//! How wide words are, and how they are fitted into a box.
//!
//! Widths are advance widths of the embedded typeface without kerning: what is drawn is never wider. A character that the
//! typeface lacks counts as a full em, as a viewer will take it from a face we do not know.

use std::sync::OnceLock;

use ttf_parser::Face;

use crate::font;

/// Height of a capital letter of the typeface over its em (`OS/2.sCapHeight` over `head.unitsPerEm`: 660 / 1000).
pub const CAPITAL: f64 = 0.66;

/// Distance between base lines over the height of a capital letter.
// Judgement: 1.9 capitals are 1.25 em, loose enough for accents over descenders.
pub const LINE_FEED: f64 = 1.9;

/// What stands for the rest of a text that was cut.
const ELLIPSIS: char = '…';

/// Characters with widths kept in a table, in em.
const KEPT: usize = 0x250;

struct Widths {
    face: Option<Face<'static>>,
    kept: Vec<f64>,
}

impl Widths {
    fn new(data: &'static [u8]) -> Self {
        let mut widths = Self { face: Face::parse(data, 0).ok(), kept: Vec::new() };
        widths.kept = (0..KEPT)
            .map(|code| {
                u32::try_from(code).ok().and_then(char::from_u32).map_or(1.0, |c| widths.found(c))
            })
            .collect();
        widths
    }

    fn found(&self, c: char) -> f64 {
        let advance = || {
            let face = self.face.as_ref()?;
            let advance = face.glyph_hor_advance(face.glyph_index(c)?)?;
            Some(f64::from(advance) / f64::from(face.units_per_em()))
        };
        advance().unwrap_or(1.0)
    }

    fn of(&self, c: char) -> f64 {
        self.kept.get(c as usize).copied().unwrap_or_else(|| self.found(c))
    }
}

fn widths(bold: bool) -> &'static Widths {
    static REGULAR: OnceLock<Widths> = OnceLock::new();
    static SEMI_BOLD: OnceLock<Widths> = OnceLock::new();
    if bold {
        SEMI_BOLD.get_or_init(|| Widths::new(font::SEMI_BOLD))
    } else {
        REGULAR.get_or_init(|| Widths::new(font::REGULAR))
    }
}

/// Width of some words, mm; `height_mm` is the height of a capital letter.
#[must_use]
pub fn width_mm(words: &str, height_mm: f64, bold: bool) -> f64 {
    let widths = widths(bold);
    words.chars().map(|c| widths.of(c)).sum::<f64>() * height_mm / CAPITAL
}

/// Whether the typeface has every character of some words.
#[must_use]
pub fn has_all(words: &str) -> bool {
    let face = widths(false).face.as_ref();
    face.is_some_and(|face| words.chars().all(|c| face.glyph_index(c).is_some()))
}

/// Words without characters that no drawing can show: one space for any white space or control character, none at the
/// ends; no marks that turn the direction of writing, no code points that are no characters.
#[must_use]
pub fn clean(words: &str) -> String {
    let mut cleaned = String::with_capacity(words.len().min(4096));
    for c in words.chars() {
        if c.is_whitespace() || c.is_control() {
            if !cleaned.is_empty() && !cleaned.ends_with(' ') {
                cleaned.push(' ');
            }
        } else if !hidden(c) {
            cleaned.push(c);
        }
    }
    cleaned.truncate(cleaned.trim_end().len());
    cleaned
}

/// Whether a character turns the direction of writing, or is none by Unicode.
fn hidden(c: char) -> bool {
    let code = c as u32;
    matches!(code, 0x061C | 0x200B | 0x200E | 0x200F | 0x202A..=0x202E | 0x2060..=0x206F | 0xFEFF)
        || (0xFDD0..=0xFDEF).contains(&code)
        || code & 0xFFFE == 0xFFFE
}

/// Lines of some words, none wider than `width` in mm; a word that does not fit is broken.
#[must_use]
pub fn wrap(words: &str, height: f64, width: f64) -> Vec<String> {
    wrap_as(words, height, width, false)
}

/// As [`wrap`], of a heading where `bold`.
#[must_use]
pub fn wrap_as(words: &str, height: f64, width: f64, bold: bool) -> Vec<String> {
    let words = clean(words);
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in words.split(' ').filter(|w| !w.is_empty()) {
        let joined = if line.is_empty() { 0.0 } else { width_mm(&line, height, bold) };
        let gap = if line.is_empty() { 0.0 } else { width_mm(" ", height, bold) };
        let own = width_mm(word, height, bold);
        if joined + gap + own <= width {
            if gap > 0.0 {
                line.push(' ');
            }
            line.push_str(word);
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        if own <= width {
            line.push_str(word);
            continue;
        }
        let mut used = 0.0;
        for c in word.chars() {
            let advance = widths(bold).of(c) * height / CAPITAL;
            // One character a line is the least: a box narrower than a letter must not hang.
            if used + advance > width && !line.is_empty() {
                lines.push(std::mem::take(&mut line));
                used = 0.0;
            }
            line.push(c);
            used += advance;
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

/// Some words in one line not wider than `width` in mm; what is cut is marked by an ellipsis.
///
/// Only for words that stand in full elsewhere.
#[must_use]
pub fn shorten(words: &str, height: f64, width: f64) -> String {
    shorten_as(words, height, width, false)
}

/// As [`shorten`], of a heading where `bold`.
#[must_use]
pub fn shorten_as(words: &str, height: f64, width: f64, bold: bool) -> String {
    let words = clean(words);
    if width_mm(&words, height, bold) <= width {
        return words;
    }
    let room = width - width_mm(&ELLIPSIS.to_string(), height, bold);
    let mut cut = String::new();
    let mut used = 0.0;
    for c in words.chars() {
        used += widths(bold).of(c) * height / CAPITAL;
        if used > room {
            break;
        }
        cut.push(c);
    }
    cut.truncate(cut.trim_end().len());
    cut.push(ELLIPSIS);
    cut
}

/// At most `most` lines of some words; the last ends in an ellipsis where there was more.
#[must_use]
pub fn wrap_at_most(words: &str, height: f64, width: f64, bold: bool, most: usize) -> Vec<String> {
    let mut lines = wrap_as(words, height, width, bold);
    if lines.len() > most {
        lines.truncate(most);
        if let Some(last) = lines.last_mut() {
            // Longer than any line, so that the cut falls where the ellipsis just fits.
            let whole = format!("{last} {}", "m".repeat(8));
            *last = if width_mm(&format!("{last}{ELLIPSIS}"), height, bold) <= width {
                format!("{last}{ELLIPSIS}")
            } else {
                shorten_as(&whole, height, width, bold)
            };
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn widths_are_those_of_the_typeface() {
        let face = Face::parse(font::REGULAR, 0).unwrap();
        assert_eq!(face.capital_height(), Some(660));
        assert_eq!(face.units_per_em(), 1000);
        let advance = |c| f64::from(face.glyph_hor_advance(face.glyph_index(c).unwrap()).unwrap());
        let expected = (advance('H') + advance('i')) / 660.0 * 2.5;
        assert!((width_mm("Hi", 2.5, false) - expected).abs() < 1e-9);
        assert!(width_mm("Hi", 2.5, true) > expected, "a heading is wider");
        // The typeface has no such sign: a full em.
        assert!((width_mm("🚰", 0.66, false) - 1.0).abs() < 1e-9);
    }

    #[test]
    fn lines_fit_and_lose_nothing() {
        let long = "Replacement of the raw water main below the tidal creek and its flood bank";
        let lines = wrap(long, 2.5, 40.0);
        assert!(lines.len() > 2);
        assert!(lines.iter().all(|l| width_mm(l, 2.5, false) <= 40.0), "{lines:?}");
        assert_eq!(lines.join(" "), long);
        let word = "w".repeat(10_000);
        let lines = wrap(&word, 2.5, 40.0);
        assert!(lines.iter().all(|l| width_mm(l, 2.5, false) <= 40.0));
        assert_eq!(lines.concat(), word);
        assert_eq!(wrap("abc", 2.5, 0.1), ["a", "b", "c"]);
        assert!(wrap(" \u{0} \n", 2.5, 40.0).is_empty());
    }

    #[test]
    fn cut_words_fit_and_say_so() {
        assert_eq!(shorten("creek", 2.5, 40.0), "creek");
        let cut = shorten(&"creek bank ".repeat(50), 2.5, 40.0);
        assert!(cut.ends_with('…') && cut.starts_with("creek bank"), "{cut}");
        assert!(width_mm(&cut, 2.5, false) <= 40.0);
        let lines = wrap_at_most(&"w".repeat(10_000), 3.5, 60.0, true, 2);
        assert_eq!(lines.len(), 2);
        assert!(lines[1].ends_with('…'));
        assert!(lines.iter().all(|l| width_mm(l, 3.5, true) <= 60.0), "{lines:?}");
    }

    #[test]
    fn what_cannot_be_shown_is_taken_out() {
        assert_eq!(clean("a\u{0}b\r\n\tc \u{202e}d\u{feff}\u{ffff} "), "a b c d");
        assert_eq!(clean("שלום"), "שלום");
    }
}

//! Text measured in columns of a terminal.

use quantity::Unit;
use unicode_width::UnicodeWidthStr;

/// Columns that a text takes.
pub(crate) fn width(text: &str) -> usize {
    text.width()
}

/// A text in one line without characters that steer a terminal or turn the direction of reading.
pub(crate) fn tidy(text: &str) -> String {
    text.chars()
        .map(|c| match c {
            '\n' | '\r' | '\t' => ' ',
            '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => '\u{fffd}',
            c if c.is_control() => '\u{fffd}',
            c => c,
        })
        .collect()
}

/// A text that takes at most so many columns; one that was longer ends in "…".
pub(crate) fn cut(text: &str, most: usize) -> String {
    if width(text) <= most {
        return text.to_owned();
    }
    let mut short = head(text, most.saturating_sub(1)).trim_end().to_owned();
    if most > 0 {
        short.push('…');
    }
    short
}

/// Words of a text; a number and its unit are one, as long as they fit into a line.
fn words(text: &str, most: usize) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        let unit = word.trim_end_matches([',', ';', '.', ':', ')']);
        match words.last_mut() {
            Some(last)
                if last.trim_start_matches(['(', '-']).parse::<f64>().is_ok()
                    && Unit::find_any(unit).is_some()
                    && width(last) + 1 + width(word) <= most =>
            {
                last.push(' ');
                last.push_str(word);
            }
            _ => words.push(word.to_owned()),
        }
    }
    words
}

/// The lines of a text, each at most so many columns, broken between words where possible.
pub(crate) fn wrap(text: &str, most: usize) -> Vec<String> {
    let most = most.max(1);
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in words(text, most) {
        if !line.is_empty() {
            if width(&line) + 1 + width(&word) <= most {
                line.push(' ');
                line.push_str(&word);
                continue;
            }
            lines.push(std::mem::take(&mut line));
        }
        let mut rest = word.as_str();
        while width(rest) > most {
            let part = piece(rest, most);
            lines.push(part.to_owned());
            rest = rest.get(part.len()..).unwrap_or_default();
        }
        rest.clone_into(&mut line);
    }
    if !line.is_empty() || lines.is_empty() {
        lines.push(line);
    }
    lines
}

/// The start of a word that is too long for a line: up to a dot, stroke or slash where one stands in its second half.
fn piece(word: &str, most: usize) -> &str {
    let fits = head(word, most);
    if fits.is_empty() {
        // A character wider than the line has a line of its own rather than none.
        return word.get(..word.chars().next().map_or(0, char::len_utf8)).unwrap_or(word);
    }
    let after_mark = fits.rfind(['-', '.', '/']).map(|at| at + 1);
    after_mark.and_then(|end| fits.get(..end)).filter(|part| width(part) > most / 2).unwrap_or(fits)
}

/// The longest start of a text that takes at most so many columns.
///
/// Measured as a whole, because marks that combine and joined pictograms are not the sum of their parts; at most four
/// characters a column are looked at, so that a wall of combining marks stays cheap.
fn head(text: &str, most: usize) -> &str {
    let mut end = 0;
    for (at, c) in text.char_indices().take(4 * most) {
        let next = at + c.len_utf8();
        if text.get(..next).map_or(0, width) > most {
            break;
        }
        end = next;
    }
    text.get(..end).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_texts_are_cut_by_columns_and_say_so() {
        assert_eq!(cut("joint force", 11), "joint force");
        assert_eq!(cut("joint force", 8), "joint f…");
        assert_eq!(cut("joint force", 7), "joint…");
        assert_eq!(cut("横断工事", 5), "横断…");
        assert_eq!(cut("abc", 0), "");
    }

    #[test]
    fn lines_break_between_words_and_long_words_break_anywhere() {
        assert_eq!(wrap("the pull at the head", 8), ["the pull", "at the", "head"]);
        assert_eq!(wrap("abcdefgh ij", 3), ["abc", "def", "gh", "ij"]);
        assert_eq!(wrap("clearance.drain-along", 16), ["clearance.drain-", "along"]);
        assert_eq!(wrap("横断工事", 3), ["横", "断", "工", "事"]);
        assert_eq!(wrap("横", 1), ["横"]);
        assert_eq!(wrap("", 10), [""]);
        assert!(wrap(&"e\u{301}".repeat(400), 80).iter().all(|l| width(l) <= 80));
        assert!(wrap(&"\u{301}".repeat(4000), 80).iter().all(|l| width(l) <= 80));
    }

    #[test]
    fn a_number_keeps_its_unit_beside_it() {
        assert_eq!(wrap("governs with 82 % used.", 15), ["governs with", "82 % used."]);
        assert_eq!(wrap("from 140 m to 150 m; at 3", 19), ["from 140 m to", "150 m; at 3"]);
        assert_eq!(wrap("120 lbf/100ft2", 10), ["120", "lbf/100ft2"]);
    }

    #[test]
    fn steering_characters_are_made_visible() {
        assert_eq!(tidy("a\u{1b}[31mb\nc\u{202e}d"), "a\u{fffd}[31mb c\u{fffd}d");
    }
}

//! Texts of users in cells: any text is allowed, and none breaks the format.

/// What a cell holds at most, in units of UTF-16.
const LONGEST: usize = 32_767;
const SHORTENED: &str =
    "… (shortened: a cell holds no more; the whole text stands in the design file)";

/// A text without characters that the format forbids, and not longer than a cell holds.
pub fn clean(text: &str) -> String {
    let clean: String = text
        .chars()
        .filter_map(|c| match c {
            '\n' => Some('\n'),
            '\t' => Some(' '),
            '\u{fffe}' | '\u{ffff}' => None,
            c if c.is_control() => None,
            c => Some(c),
        })
        .collect();
    if clean.encode_utf16().count() <= LONGEST {
        return clean;
    }
    let room = LONGEST - SHORTENED.encode_utf16().count();
    let mut used = 0;
    let kept: String = clean
        .chars()
        .take_while(|c| {
            used += c.len_utf16();
            used <= room
        })
        .collect();
    kept + SHORTENED
}

/// One line of at most so many characters; used only where the whole text stands elsewhere.
pub fn briefly(text: &str, most: usize) -> String {
    let line = clean(text).replace('\n', " ");
    if line.chars().count() <= most {
        return line;
    }
    let kept: String = line.chars().take(most.saturating_sub(1)).collect();
    kept + "…"
}

/// Lines that a text takes in a cell of some width, rather too many than too few.
pub fn lines(text: &str, width: f64) -> f64 {
    // A width counts digits of eleven points; letters of ten points are narrower, more so than in any usual typeface.
    let width = 1.15 * width.max(3.0);
    text.split('\n').map(|line| wrapped(line, width)).sum()
}

/// Lines of one paragraph, broken between words and, where a word is too long, in it.
fn wrapped(line: &str, width: f64) -> f64 {
    let (mut lines, mut used) = (1.0, 0.0);
    for word in line.split(' ') {
        let long: f64 = word.chars().map(|c| if c.is_ascii() { 1.0 } else { 1.5 }).sum();
        if used > 0.0 && used + long > width {
            lines += 1.0;
            used = 0.0;
        }
        let more = ((long / width).ceil() - 1.0).max(0.0);
        lines += more;
        used += 1.0 + long - more * width;
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_format_forbids_goes_and_all_else_stays() {
        assert_eq!(clean("a\u{0}b\u{1b}[31m\tc\nd\u{ffff}"), "ab[31m c\nd");
        assert_eq!(clean("=1+1 <b> & 🛠"), "=1+1 <b> & 🛠");
        let long = clean(&"🛠".repeat(40_000));
        assert!(long.encode_utf16().count() <= LONGEST && long.ends_with("design file)"));
        assert_eq!(briefly("a\nbcdef", 4), "a b…");
        assert_eq!(lines("abcdef\ng", 3.0), 3.0);
        assert_eq!(lines("aa bb cc", 5.0), 2.0);
        assert_eq!(lines("", 5.0), 1.0);
    }
}

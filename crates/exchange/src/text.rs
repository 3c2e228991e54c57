//! From bytes to text: byte order marks, encodings, and what is no text at all.

use crate::issue::{Issues, Place};

/// The 32 characters in which windows-1252 differs from the first 256 of Unicode, for the bytes 0x80 to 0x9F. The five
/// bytes without a character stand for the control character of their number, as in the encoding standard of the web.
///
/// From memory: WHATWG Encoding Standard, index windows-1252.
const WINDOWS_1252: [char; 32] = [
    '\u{20ac}', '\u{81}', '\u{201a}', '\u{192}', '\u{201e}', '\u{2026}', '\u{2020}', '\u{2021}',
    '\u{2c6}', '\u{2030}', '\u{160}', '\u{2039}', '\u{152}', '\u{8d}', '\u{17d}', '\u{8f}',
    '\u{90}', '\u{2018}', '\u{2019}', '\u{201c}', '\u{201d}', '\u{2022}', '\u{2013}', '\u{2014}',
    '\u{2dc}', '\u{2122}', '\u{161}', '\u{203a}', '\u{153}', '\u{9d}', '\u{17e}', '\u{178}',
];

/// The text of a file, without byte order mark; nothing, and an error, where the bytes are no text.
pub(crate) fn decode(name: &str, bytes: &[u8], issues: &mut Issues) -> Option<String> {
    if let Some((what, hint)) = no_text(bytes) {
        issues
            .error("not_text", Place::line(1), format!("{name} is {what}"))
            .allowed("a text file: AGS4, or a table as CSV")
            .hint(hint);
        return None;
    }
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    match std::str::from_utf8(bytes) {
        Ok(text) => Some(text.to_owned()),
        Err(error) => {
            let (before, rest) =
                bytes.split_at_checked(error.valid_up_to()).unwrap_or((bytes, &[]));
            let byte = rest.first().copied().unwrap_or_default();
            issues
                .warning(
                    "not_utf8",
                    Place::line(1 + line_ends(before)),
                    "the file is not text in UTF-8; it was read as windows-1252",
                )
                .found(format!("byte {byte:#04x}"))
                .allowed("UTF-8")
                .hint("compare names and descriptions with the source, or save the file as UTF-8");
            Some(bytes.iter().copied().map(from_windows_1252).collect())
        }
    }
}

/// What the bytes are where they are no text that is read, and what to do.
fn no_text(bytes: &[u8]) -> Option<(&'static str, &'static str)> {
    if bytes.starts_with(b"PK\x03\x04") {
        return Some((
            "a spreadsheet or another packed file",
            "save the table as CSV in UTF-8, or unpack the file first",
        ));
    }
    if bytes.starts_with(b"%PDF") {
        return Some(("a PDF", "ask for the digital data of the investigation, usually AGS4"));
    }
    if bytes.starts_with(b"\xff\xfe") || bytes.starts_with(b"\xfe\xff") {
        return Some(("text in UTF-16", "save the file as UTF-8"));
    }
    bytes.contains(&0).then_some(("not text: it holds zero bytes", "is this the right file?"))
}

fn from_windows_1252(byte: u8) -> char {
    byte.checked_sub(0x80)
        .and_then(|above| WINDOWS_1252.get(usize::from(above)))
        .copied()
        .unwrap_or(char::from(byte))
}

/// Number of line ends: CR LF, LF or CR.
fn line_ends(bytes: &[u8]) -> usize {
    let pairs = bytes.windows(2).filter(|pair| pair == b"\r\n").count();
    bytes.iter().filter(|b| matches!(b, b'\r' | b'\n')).count() - pairs
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::issue::DataIssue;

    fn decoded(bytes: &[u8]) -> (Option<String>, Vec<DataIssue>) {
        let mut issues = Issues::default();
        let text = decode("x.ags", bytes, &mut issues);
        (text, issues.finish())
    }

    #[test]
    fn utf_8_is_read_with_and_without_its_mark() {
        for bytes in ["a°".as_bytes(), "\u{feff}a°".as_bytes()] {
            let (text, issues) = decoded(bytes);
            assert_eq!((text.as_deref(), issues.len()), (Some("a°"), 0));
        }
    }

    #[test]
    fn other_bytes_are_windows_1252_with_the_line_of_the_first() {
        let (text, issues) = decoded(b"one\r\ntwo\rthree\n52\xb0 \x96 \x80 \x81\xff");
        assert_eq!(text.as_deref(), Some("one\r\ntwo\rthree\n52° – € \u{81}ÿ"));
        let found: Vec<_> = issues.iter().map(|i| (i.code, i.line, i.found.as_deref())).collect();
        assert_eq!(found, [("not_utf8", 4, Some("byte 0xb0"))]);
    }

    #[test]
    fn what_is_no_text_is_refused_by_its_name() {
        for (bytes, what) in [
            (&b"PK\x03\x04rest"[..], "spreadsheet"),
            (b"%PDF-1.7", "PDF"),
            (b"\xff\xfea\0", "UTF-16"),
            (b"a\0b", "zero bytes"),
        ] {
            let (text, issues) = decoded(bytes);
            assert_eq!(text, None);
            let issue = issues.first().unwrap();
            assert_eq!(issue.code, "not_text");
            assert!(issue.message.contains(what), "{issue}");
        }
    }
}

//! Files that are not what they should be, and encodings.

mod common;

use common::{AGS, TABLE, codes, issues, shown};
use exchange::{DataIssue, LARGEST_FILE, read_ground};

fn refused(name: &str, bytes: &[u8]) -> DataIssue {
    let mut list = read_ground(name, bytes).expect_err("refused");
    assert_eq!(list.len(), 1, "{}", shown(&list));
    list.remove(0)
}

#[test]
fn the_name_decides_nothing() {
    for name in ["x.ags", "X.AGS", "x.txt", "x.csv", ""] {
        assert!(read_ground(name, AGS.as_bytes()).is_ok(), "{name}");
        assert!(read_ground(name, TABLE.as_bytes()).is_ok(), "{name}");
    }
}

#[test]
fn empty_and_foreign_files_are_refused_by_name() {
    for bytes in [&b""[..], b"\r\n \n", b"\xef\xbb\xbf"] {
        let issue = refused("creek.ags", bytes);
        assert_eq!((issue.code, issue.line), ("empty", 1));
        assert!(issue.message.contains("creek.ags"));
    }
    for bytes in [&b"hello"[..], b"<?xml version=\"1.0\"?><Diggs/>", b"1;2;3\n4;5;6", b",,,"] {
        assert_eq!(refused("x", bytes).code, "unknown_format");
    }
    assert!(refused("x", b"<?xml version=\"1.0\"?>").hint.unwrap().contains("XML"));
    assert_eq!(refused("x.xlsx", b"PK\x03\x04\x14\x00").code, "not_text");
    let issue = refused("x", &vec![b'a'; LARGEST_FILE + 1]);
    assert_eq!(issue.code, "too_large");
    assert!(issue.message.contains("50000001 bytes"));
}

const OLD: &str = "\"**PROJ\"
\"*PROJ_ID\",\"*PROJ_NAME\",\"*?PROJ_STAT\",\"*PROJ_AGS\"
\"<UNITS>\",\"\",\"\",\"\"
\"1\",\"Invented\",\"Final\",\"3.1\"

\"**HOLE\"
\"*HOLE_ID\",\"*HOLE_FDEP\"
\"<UNITS>\",\"m\"
\"BH1\",\"6\"
";

#[test]
fn older_ags_is_refused_with_its_edition_and_what_to_do() {
    let issue = refused("old.ags", OLD.as_bytes());
    assert_eq!((issue.code, issue.line, issue.column), ("old_ags", 1, Some(1)));
    assert_eq!(issue.message, "old.ags is in the format AGS 3.1, which is not read");
    assert!(issue.allowed.unwrap().contains("AGS4"));
    assert!(issue.hint.unwrap().contains("ask whoever issued the file for AGS4"));
    for text in [
        OLD.replace("PROJ_AGS", "PROJ_CID"),
        OLD.replace("\"3.1\"", "\"\""),
        OLD.lines().skip(5).collect::<Vec<_>>().join("\r\n"),
        "\n\"**PROJ\"".to_owned(),
    ] {
        let issue = refused("old.ags", text.as_bytes());
        assert!(issue.message.contains("AGS 3 or older"), "{issue}");
    }
}

#[test]
fn a_byte_order_mark_changes_nothing() {
    for text in [AGS, TABLE] {
        let marked = format!("\u{feff}{text}");
        let (a, b) = (read_ground("x", text.as_bytes()), read_ground("x", marked.as_bytes()));
        assert_eq!(a.unwrap(), b.unwrap());
    }
}

#[test]
fn other_encodings_are_read_as_windows_1252_with_a_warning() {
    let text = AGS.replace("Soft CLAY", "Soft CLAY at 12\u{b0}");
    let mut bytes = Vec::new();
    for c in text.chars() {
        bytes.push(u8::try_from(u32::from(c)).unwrap());
    }
    let data = read_ground("x", &bytes).unwrap();
    assert_eq!(codes(&data.warnings), [('W', "not_utf8", 24)]);
    assert_eq!(data.borings[0].strata[0].description, "Soft CLAY at 12°");
}

#[test]
fn messages_are_limited_and_the_rest_is_counted() {
    let row = "\"DATA\",\"BH1\",\"x\",\"10.00\",\"SAND\",\"\",\"\"\n";
    let at = AGS.find("\"DATA\",\"BH2\",\"0.00\"").unwrap();
    let text = format!("{}{}{}", &AGS[..at], row.repeat(1000), &AGS[at..]);
    let list = issues(&text);
    let last = list.iter().find(|i| i.code == "too_many").unwrap();
    assert_eq!(last.message, "800 more errors are not shown");
    assert_eq!(list.len(), 201);
}

//! Documents as files: what is written, and what is left alone.

use std::collections::BTreeMap;
use std::path::Path;

use insta::assert_snapshot;

use crate::terminal::Terminal;

const DEMO: &str = include_str!("../../../../demo/creek.toml");
const LANE: &str = include_str!("../../../../demo/lane-asbestos.toml");

fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap())
        .map(|e| (e.file_name().into_string().unwrap(), std::fs::read(e.path()).unwrap()))
        .collect()
}

#[test]
fn the_dossier_holds_every_document_and_the_same_bytes_twice() {
    let terminal = Terminal::new();
    terminal.write("lane.toml", LANE);
    let line = |folder: &str| {
        format!(
            "dossier lane.toml -o {folder} --date 2026-05-31 --revision B --author \"A. Nobody\""
        )
    };
    let first = terminal.run(&line("one"));
    assert_eq!(first.code, 1, "a check is not assessed: {first}");
    let second = terminal.run(&line("deep/two"));
    assert_eq!(second.code, 1, "{second}");
    let (one, two) =
        (files(&terminal.folder().join("one")), files(&terminal.folder().join("deep/two")));
    let begins: [(&str, &[u8]); 8] = [
        ("calculation-book.pdf", b"%PDF-"),
        ("drawings.pdf", b"%PDF-"),
        ("long-section.dxf", b"  0\r\nSECTION"),
        ("cross-section.svg", b"<"),
        ("workbook.xlsx", b"PK"),
        ("profiles.csv", b"profile"),
        ("setting-out.csv", b""),
        ("assessment.json", b"{"),
    ];
    for (name, begin) in begins {
        let bytes = one.get(name).unwrap_or_else(|| panic!("{name} is missing: {:?}", one.keys()));
        let same = bytes.len() > 200 && (bytes.starts_with(begin) || name.ends_with(".dxf"));
        assert!(same, "{name}: {:?}", String::from_utf8_lossy(&bytes[..20.min(bytes.len())]));
    }
    assert!(one == two, "the same file gives other bytes");
}

#[test]
fn a_file_in_the_way_is_left_alone_and_nothing_is_written() {
    let terminal = Terminal::new();
    terminal.write("creek.toml", DEMO);
    std::fs::create_dir(terminal.folder().join("out")).unwrap();
    terminal.write("out/setting-out.csv", "mine");
    let refused = terminal.run("data creek.toml -o out");
    assert_eq!(refused.code, 2, "{refused}");
    assert!(refused.err.contains("error[file_exists]"), "{refused}");
    assert_eq!(files(&terminal.folder().join("out")).len(), 1);
    let replaced = terminal.run("data creek.toml -o out --replace");
    assert_eq!(replaced.code, 0, "{replaced}");
    let made = files(&terminal.folder().join("out"));
    assert!(made.len() >= 4 && made["setting-out.csv"] != b"mine", "{:?}", made.keys());
    assert!(made.keys().all(|name| !name.ends_with(".part")));
}

#[test]
fn words_of_the_title_block_are_checked_before_anything_is_made() {
    let terminal = Terminal::new();
    terminal.write("creek.toml", DEMO);
    for (option, word) in [
        ("--date 31.5.2026", "31.5.2026"),
        ("--date 2026-02-30", "2026-02-30"),
        ("--author \"\"", "1 to 80 characters"),
    ] {
        let shown = terminal.run(&format!("workbook creek.toml -o a.xlsx {option}"));
        assert_eq!(shown.code, 2, "{shown}");
        assert!(shown.err.contains(word), "{shown}");
    }
    assert!(!terminal.folder().join("a.xlsx").exists());
    let nowhere = terminal.run("workbook creek.toml -o no/such/a.xlsx");
    assert_eq!(nowhere.code, 2, "{nowhere}");
    assert!(nowhere.err.contains("error[folder_not_found]"), "{nowhere}");
}

#[test]
fn a_part_alone_says_what_it_wrote() {
    let terminal = Terminal::new();
    terminal.write("creek.toml", DEMO);
    let shown = terminal.run("workbook creek.toml -o creek.xlsx");
    assert_eq!(shown.code, 0, "{shown}");
    assert_snapshot!(shown);
    let bytes = std::fs::read(terminal.folder().join("creek.xlsx")).unwrap();
    assert!(bytes.starts_with(b"PK"));
}

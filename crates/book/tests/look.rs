//! Writes books to look at; `BOOK_FOLDER=/somewhere cargo test -p book --test look`.
#[path = "common/mod.rs"]
mod common;

use sheets::Issue;

#[test]
fn books_to_look_at_are_written_where_a_folder_is_named() {
    let Ok(folder) = std::env::var("BOOK_FOLDER") else { return };
    for name in ["creek", "creek-fails", "street", "lane-asbestos"] {
        let (file, text) = common::demo(name);
        let design = common::design(&file, &text);
        let issue = Issue { date: "2026-05-31".parse().ok(), revision: Some("B".into()), author: None };
        let bytes = common::book(&design, &file, issue);
        std::fs::write(format!("{folder}/{name}.pdf"), bytes).unwrap();
    }
}

//! Writes books to look at; `BOOK_FOLDER=/somewhere cargo test -p book --test look`.

mod common;

use sheets::Issue;

#[test]
fn books_to_look_at_are_written_where_a_folder_is_named() {
    let Ok(folder) = std::env::var("BOOK_FOLDER") else { return };
    for name in ["creek", "creek-fails", "street", "lane-asbestos"] {
        let (file, text) = common::demo(name);
        let design = common::design(&file, &text);
        let issue =
            Issue { date: "2026-05-31".parse().ok(), revision: Some("B".into()), author: None };
        let subject = common::subject(&design, &file, issue, quantity::System::Metric);
        let bytes = common::bytes(&subject);
        std::fs::write(format!("{folder}/{name}.pdf"), bytes).unwrap();
    }
    for technique in [project::Technique::Drilling, project::Technique::Bursting] {
        let design = common::design("starter.toml", &common::starter(technique));
        let subject =
            common::subject(&design, "starter.toml", Issue::default(), quantity::System::Customary);
        std::fs::write(format!("{folder}/starter-{technique:?}.pdf"), common::bytes(&subject))
            .unwrap();
    }
}

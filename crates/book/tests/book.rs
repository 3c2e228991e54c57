//! What stands in the books, read back from their pages.

mod common;

use std::sync::LazyLock;

use common::{Pages, design, subject};
use quantity::System;
use sheets::{Issue, Subject};

fn issue() -> Issue {
    Issue {
        date: "2026-05-31".parse().ok(),
        revision: Some("C2".to_owned()),
        author: Some("Office for trials".to_owned()),
    }
}

/// Everything that a book must hold of its subject.
fn holds_everything(subject: &Subject<'_>, pages: &Pages) {
    let a = &subject.assessment;
    for check in &a.checks {
        pages.must_hold(&check.id);
        pages.must_hold(&check.title);
    }
    for assumption in &a.assumptions {
        pages.must_hold(&assumption.path);
        pages.must_hold(&assumption.source.text);
    }
    for warning in &a.warnings {
        pages.must_hold(warning);
    }
    for caution in &a.cautions {
        pages.must_hold(caution);
    }
    for explanation in &subject.explanations {
        pages.must_hold(&explanation.check.basis.text);
        for step in &explanation.working.steps {
            pages.must_hold(&step.meaning);
            pages.must_hold(&step.source.text);
        }
        for note in &explanation.notes {
            pages.must_hold(note.get(1..).unwrap_or_default());
        }
    }
    for part in &a.forces {
        pages.must_hold(&part.name);
    }
    for method in &a.methods {
        pages.must_hold(&method.name);
    }
    for change in &a.fixes {
        pages.must_hold(&change.parameter);
        pages.must_hold(&change.to);
    }
    let sentence = a.verdict.sentence.split_once(": ").map_or("", |(_, rest)| rest);
    pages.must_hold(sentence.get(1..).unwrap_or_default());
    pages.must_hold(&a.crossing.name);
    pages.must_hold("Setting out");
    let rows = assess::setting_out(subject.design).rows;
    let last = rows.last().expect("a table to set out by");
    pages.must_hold(&format!("{:.3}", last.chainage));
    assert!(!pages.text.contains('□'), "a character could not be shown");
}

fn demo_holds_everything(name: &str, least_pages: usize) {
    let (file, text) = common::demo(name);
    let design = design(&file, &text);
    let subject = subject(&design, &file, issue(), System::Metric);
    let pages = Pages::of(&common::bytes(&subject));
    holds_everything(&subject, &pages);
    pages.must_hold("2026-05-31");
    pages.must_hold("revision C2");
    pages.must_hold("Office for trials");
    assert!(pages.count >= least_pages && pages.count < 120, "{name} has {} pages", pages.count);
    pages.must_hold(&format!("{0} of {0}", pages.count));
}

#[test]
fn a_drilled_crossing_is_held_in_full() {
    demo_holds_everything("creek", 30);
}

#[test]
fn a_crossing_that_fails_is_held_in_full_with_its_changes() {
    demo_holds_everything("creek-fails", 30);
}

#[test]
fn a_burst_main_is_held_in_full() {
    demo_holds_everything("street", 15);
    demo_holds_everything("lane-asbestos", 12);
}

#[test]
fn starters_in_customary_units_show_customary_units() {
    for technique in [project::Technique::Drilling, project::Technique::Bursting] {
        let text = common::starter(technique);
        let design = design("starter.toml", &text);
        let subject = subject(&design, "starter.toml", Issue::default(), System::Customary);
        let pages = Pages::of(&common::bytes(&subject));
        for check in &subject.assessment.checks {
            pages.must_hold(&check.id);
            if let Some(demand) = check.demand {
                let shown = demand.shown(System::Customary);
                pages.must_hold(shown.trim_start_matches('-').trim_end_matches(" deg"));
            }
        }
        assert!(pages.squeezed.contains("lbf") && pages.squeezed.contains("psi"));
        pages.must_hold("revision–");
    }
}

/// One small book with texts that try to be code, to break the page, or to be no text at all.
static HOSTILE: &str = "#panic(\"no\") $x$ @ref <lbl> *bold* _it_ \\u{41} #read(\"/etc/passwd\") `raw` //no /*no*/ [a](b) = h";

static HOSTILE_BOOK: LazyLock<(Vec<u8>, Vec<u8>)> = LazyLock::new(|| {
    let (file, text) = common::demo("lane-asbestos");
    let design = design(&file, &text);
    let issue =
        Issue { date: None, revision: Some(HOSTILE.repeat(3)), author: Some(HOSTILE.to_owned()) };
    let mut subject = subject(&design, "a\u{202e}b\n#f.toml", issue, System::Metric);
    let a = &mut subject.assessment;
    a.crossing.name = format!("{HOSTILE} {}", "W".repeat(400));
    a.crossing.note =
        Some(format!("{}\n\u{0}\u{1f6a7}漢 {}", "long note. ".repeat(500), "x".repeat(900)));
    a.warnings = vec![format!("{HOSTILE}{}", "i".repeat(300)), "שלום مرحبا".to_owned()];
    a.crossing.facts.push((HOSTILE.to_owned(), "y".repeat(700)));
    a.checks[0].title = format!("{HOSTILE} {}", "z".repeat(500));
    subject.explanations[0].check.title = HOSTILE.to_owned();
    subject.explanations[0].notes.push(HOSTILE.repeat(20));
    if let Some(step) = subject.explanations[0].working.steps.first_mut() {
        step.symbol = "#panic(1)".to_owned();
        step.meaning = format!("{HOSTILE} {}", "m".repeat(4000));
    }
    (common::bytes(&subject), common::bytes(&subject))
});

#[test]
fn hostile_texts_come_out_as_texts() {
    let pages = Pages::of(&HOSTILE_BOOK.0);
    for part in HOSTILE.split(' ') {
        pages.must_hold(part);
    }
    pages.must_hold(&"W".repeat(400));
    pages.must_hold(&"x".repeat(900));
    pages.must_hold(&"y".repeat(700));
    // It flows over pages, with their heads between.
    assert!(pages.squeezed.matches("mmmmmmmm").count() > 480);
    pages.must_hold("□□□");
    pages.must_hold("characters of the file cannot be shown");
    assert!(!pages.squeezed.contains("root:x:"));
}

#[test]
fn no_word_leaves_its_page() {
    let places = common::word_boxes(&HOSTILE_BOOK.0);
    assert!(places.len() > 1000);
    for (page_width, left, right, word) in places {
        assert!(
            left > 20.0 && right < page_width - 20.0,
            "{word} stands from {left} to {right} of {page_width}"
        );
    }
}

#[test]
fn the_same_subject_gives_the_same_bytes() {
    assert!(HOSTILE_BOOK.0 == HOSTILE_BOOK.1);
    let text = String::from_utf8_lossy(&HOSTILE_BOOK.0).into_owned();
    assert!(!text.contains("/CreationDate"), "a date of its own");
}

#[test]
fn a_book_has_bookmarks_words_for_pictures_and_an_archive_form_with_its_day() {
    let (file, text) = common::demo("lane-asbestos");
    let design = design(&file, &text);
    let subject = subject(&design, &file, issue(), System::Metric);
    let bytes = common::bytes(&subject);
    let raw = String::from_utf8_lossy(&bytes).into_owned();
    assert!(raw.contains("pdfaid"), "no PDF/A");
    let info = common::tool("pdfinfo", &["-isodates"], &bytes);
    assert!(
        info.contains("lane with") || info.contains(&subject.assessment.crossing.name),
        "{info}"
    );
    assert!(info.contains("Office for trials") && info.contains("2026-05-31"), "{info}");
    assert!(info.contains("Tagged:          yes"), "{info}");
    let structure = common::tool("pdfinfo", &["-struct"], &bytes);
    assert!(
        structure.contains("Figure")
            && structure.contains("Formula")
            && structure.contains("Table")
    );
    let outline = common::outline(&bytes);
    for wanted in ["Summary", "All checks", "Workings", "References", "host.material"] {
        assert!(
            outline.iter().any(|title| title.contains(wanted)),
            "no bookmark {wanted}: {outline:?}"
        );
    }
}

#[test]
fn drawings_keep_the_size_of_their_paper() {
    let (file, text) = common::demo("creek");
    let design = design(&file, &text);
    let subject = subject(&design, &file, issue(), System::Metric);
    let drawings = sheets::drawing::drawings(&subject);
    let bytes = book::drawing_pdf(&drawings, "Drawings #1", &subject.issue).unwrap();
    let info = common::tool("pdfinfo", &["-l", "99"], &bytes);
    let sheets: Vec<_> = drawings.iter().flat_map(|d| &d.sheets).collect();
    assert!(!sheets.is_empty());
    for (k, sheet) in sheets.iter().enumerate() {
        let line = info.lines().filter(|line| line.contains(" size:")).nth(k).unwrap();
        let numbers: Vec<f64> =
            line.split_whitespace().filter_map(|word| word.parse().ok()).collect();
        let [.., width, height] = numbers.as_slice() else { panic!("{line}") };
        assert!((width - sheet.width * 72.0 / 25.4).abs() < 0.1, "{line}");
        assert!((height - sheet.height * 72.0 / 25.4).abs() < 0.1, "{line}");
    }
    assert!(Pages::of(&bytes).squeezed.contains("Tidalcreek"));
    assert!(matches!(
        book::drawing_pdf(&[], "none", &subject.issue),
        Err(book::BookError::Preparing(_))
    ));
}

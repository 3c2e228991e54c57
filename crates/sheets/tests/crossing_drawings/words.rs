//! What holds for the words and marks of every drawing.

use quantity::System;
use sheets::scene::Sheet;

use crate::designs::{demo, design, drawings, drawn};
use crate::paper::{points, words};

fn every_sheet(test: impl Fn(&str, &Sheet)) {
    for drawn in drawn() {
        assert_eq!(drawn.drawings.len(), 4);
        // Long section and plan; the detail drawings are held by tests of their own.
        for drawing in drawn.drawings.iter().take(2) {
            for (i, sheet) in drawing.sheets.iter().enumerate() {
                let (name, system) = (drawn.name, drawn.system);
                test(&format!("{name}, {}, {system:?}, sheet {}", drawing.id, i + 1), sheet);
            }
        }
    }
}

#[test]
fn no_words_touch_and_all_stand_on_the_paper() {
    every_sheet(|what, sheet| {
        let words = words(sheet);
        assert!(words.len() > 30, "{what}: {}", words.len());
        for (i, a) in words.iter().enumerate() {
            assert!(a.within(20.0, 10.0, sheet.width - 10.0, sheet.height - 10.0), "{what}: {a:?}");
            for b in words.iter().skip(i + 1) {
                assert!(!a.touches(b), "{what}: {a:?} {b:?}");
            }
        }
        for view in &sheet.views {
            let f = view.frame;
            for a in words.iter().filter(|w| w.in_view) {
                assert!(a.within(f.left(), f.bottom(), f.right(), f.top()), "{what}: {a:?}");
            }
        }
    });
}

#[test]
fn every_coordinate_is_a_number_and_marks_of_paper_lie_on_it() {
    every_sheet(|what, sheet| {
        for mark in &sheet.marks {
            for p in points(mark) {
                let on = (0.0..=sheet.width).contains(&p.x) && (0.0..=sheet.height).contains(&p.y);
                assert!(on, "{what}: {mark:?}");
            }
        }
        for mark in sheet.views.iter().flat_map(|v| &v.marks) {
            assert!(points(mark).iter().all(|p| p.x.is_finite() && p.y.is_finite()), "{what}");
        }
    });
}

#[test]
fn the_same_design_gives_the_same_drawings() {
    let creek = design(&demo("creek.toml"));
    let again = drawings(&creek, System::Metric);
    let first = drawn().iter().find(|d| d.name == "creek" && d.system == System::Metric).unwrap();
    assert_eq!(first.drawings, again);
}

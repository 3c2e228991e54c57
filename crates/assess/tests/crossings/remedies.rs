//! What would make failing checks pass: followed, it does.

use assess::Status;

use crate::crossing::{run, status, with};

#[test]
fn a_remedy_makes_its_check_pass_when_it_is_followed() {
    let text = with("entry_radius = \"250 m\"", "entry_radius = \"125 m\"");
    let a = run(&text);
    let remedy = a.remedies.iter().find(|r| r.parameter == "/line/entry_radius").expect("a remedy");
    let mended =
        text.replace("entry_radius = \"125 m\"", &format!("entry_radius = \"{}\"", remedy.to));
    assert_ne!(status(&run(&mended), &remedy.check), Status::Fail, "{remedy:?}");
    // One metre less is not enough.
    let metres: f64 = remedy.to.trim_end_matches(" m").parse().unwrap();
    let short =
        text.replace("entry_radius = \"125 m\"", &format!("entry_radius = \"{} m\"", metres - 1.0));
    assert_eq!(status(&run(&short), &remedy.check), Status::Fail, "{remedy:?}");
}

/// Common practice, no source: strings of DN 800 of 330 m and of DN 700 of 240 m have been pulled by directional drilling. With
/// ordinary ground, fluid and ballast such crossings must come out feasible.
#[test]
fn changes_together_make_every_check_pass() {
    let text = with("entry_radius = \"250 m\"", "entry_radius = \"125 m\"")
        .replace("clearance = \"3 m\"", "clearance = \"8 m\"")
        .replace("\"450 mm\", \"850 mm\"", "\"450 mm\", \"700 mm\"");
    let a = run(&text);
    let failing = a.checks.iter().filter(|c| c.status == Status::Fail).count();
    assert!(failing >= 3, "only {failing} fail");
    assert!(a.fixes.len() >= 2, "{:?}", a.fixes);
    let mut mended = text;
    for change in &a.fixes {
        mended = match change.parameter.as_str() {
            "/string/contents" => {
                assert_eq!(change.to, "\"water\"", "{change:?}");
                mended.replace("contents = \"part\"\nballast_share = 0.6", "contents = \"water\"")
            }
            "/bore/ream, pass 2" => mended.replace("\"700 mm\"", &format!("\"{}\"", change.to)),
            path => {
                let key = path.rsplit('/').next().unwrap();
                let line = mended
                    .lines()
                    .find(|l| l.starts_with(&format!("{key} = ")))
                    .unwrap()
                    .to_owned();
                mended.replace(&line, &format!("{key} = \"{}\"", change.to))
            }
        };
    }
    let after = run(&mended);
    let still: Vec<_> =
        after.checks.iter().filter(|c| c.status == Status::Fail).map(|c| &c.id).collect();
    assert!(still.is_empty(), "{:?} leaves {still:?}", a.fixes);
}

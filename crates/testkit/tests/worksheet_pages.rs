//! `docs/worksheets.md` says what the definitions and the cases say.

use testkit::cases::read_all;
use testkit::worksheet_pages::worksheet_pages;
use testkit::workspace_root;

#[test]
fn the_reference_of_the_worksheets_is_up_to_date() {
    let cases = read_all(&workspace_root().join("cases")).unwrap();
    let path = workspace_root().join("docs/worksheets.md");
    let made = worksheet_pages(&cases);
    if std::env::var_os("UPDATE_REFERENCE").is_some() {
        std::fs::write(&path, &made).unwrap();
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(kept == made, "run UPDATE_REFERENCE=1 cargo test -p testkit --test worksheet_pages");
}

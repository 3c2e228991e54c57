//! Texts come back byte for byte; nothing that was typed is lost; undo and redo move and delete nothing.

use project::Technique;
use proptest::prelude::*;
use store::{
    Copy, Draft, Files, Listing, Moved, NamedBytes, NewProject, Order, Save, Saved, Shown, Store,
    StoreError,
};

const CREEK: &str = include_str!("../../../demo/creek.toml");
const STREET: &str = include_str!("../../../demo/street.toml");
const BORINGS: &[u8] = include_bytes!("../../../demo/creek-ground.ags");

fn new(store: &mut Store, text: &str, at: i64) -> i64 {
    store.create(&NewProject { text, files: &[], who: "A", at }).expect("the helper works")
}

fn save<'a>(project: i64, base: u32, text: &'a str, at: i64) -> Save<'a> {
    let files = Files::AsBefore;
    Save { project, base, text, files, what_changed: "angle", who: "B", at, set_aside: true }
}

fn named(name: &str) -> String {
    format!("# first line\nname = \"{name}\"\n")
}

#[test]
fn both_demos_come_back_byte_for_byte_with_their_files() {
    let mut store = Store::in_memory().unwrap();
    let files = [NamedBytes { name: "creek-ground.ags".to_owned(), bytes: BORINGS.to_vec() }];
    let creek = store.create(&NewProject { text: CREEK, files: &files, who: "A", at: 5 }).unwrap();
    let street = new(&mut store, STREET, 6);
    let first = store.revision(creek, 1).unwrap();
    assert_eq!((first.text.as_str(), first.files.as_slice()), (CREEK, files.as_slice()));
    assert_eq!((first.name.as_str(), first.technique), ("Tidal creek", Technique::Drilling));
    assert_eq!((first.who.as_str(), first.at, first.base), ("A", 5, None));
    assert_eq!(store.current(street).unwrap().technique, Technique::Bursting);
    let text = CREEK.replace("Tidal creek", "Creek").replace('\n', "\r\n");
    assert_eq!(store.save(&save(creek, 1, &text, 7)).unwrap(), Saved::Revision(2));
    let second = store.current(creek).unwrap();
    assert_eq!(
        (second.text, second.files.as_slice(), second.base),
        (text, files.as_slice(), Some(1))
    );
    let none = Save { files: Files::These(&[]), ..save(creek, 2, CREEK, 8) };
    assert_eq!(store.save(&none).unwrap(), Saved::Revision(3));
    assert_eq!(store.current(creek).unwrap().files, []);
    assert_eq!(store.revision(creek, 2).unwrap().files, files);
    let changed = store.compare(creek, 2, 3).unwrap();
    assert_eq!(changed.fields[0].path, "/name");
}

#[test]
fn the_second_of_two_windows_gets_the_conflict_and_its_text_is_kept() {
    let mut store = Store::in_memory().unwrap();
    let id = new(&mut store, &named("a"), 1);
    assert_eq!(store.save(&save(id, 1, &named("one"), 2)).unwrap(), Saved::Revision(2));
    let file = [NamedBytes { name: "x.csv".to_owned(), bytes: vec![0, 255] }];
    let late = named("two");
    let late = Save { files: Files::These(&file), ..save(id, 1, &late, 3) };
    let Saved::Conflict { current, copy: Some(copy) } = store.save(&late).unwrap() else {
        panic!("no conflict");
    };
    assert_eq!((current.number, current.text.as_str()), (2, named("one").as_str()));
    let expected = Copy {
        id: copy,
        text: named("two"),
        files: file.to_vec(),
        base: 1,
        what_changed: "angle".to_owned(),
        who: "B".to_owned(),
        at: 3,
    };
    assert_eq!(store.copies(id).unwrap(), [expected]);
    store.settle_copy(copy, "A", 4).unwrap();
    assert_eq!(store.copies(id).unwrap(), []);
    assert!(matches!(store.settle_copy(99, "A", 4), Err(StoreError::NoSuchCopy(99))));
    let text = named("three");
    let unasked = Save { set_aside: false, ..save(id, 1, &text, 5) };
    assert!(matches!(store.save(&unasked).unwrap(), Saved::Conflict { copy: None, .. }));
    assert_eq!((store.copies(id).unwrap().len(), store.history(id).unwrap().len()), (0, 2));
}

fn to(moved: Moved) -> u32 {
    match moved {
        Moved::To(revision) => revision.number,
        Moved::Conflict(revision) => panic!("conflict with {}", revision.number),
    }
}

#[test]
fn undo_and_redo_move_and_a_save_begins_a_new_way() {
    let mut store = Store::in_memory().unwrap();
    let id = new(&mut store, &named("a"), 1);
    store.save(&save(id, 1, &named("b"), 2)).unwrap();
    store.save(&save(id, 2, &named("c"), 3)).unwrap();
    assert!(matches!(store.redo(id, 3, "A", 4), Err(StoreError::NothingToRedo(_))));
    assert_eq!(to(store.undo(id, 3, "A", 4).unwrap()), 2);
    // A second window that still sees revision 3 does not undo twice.
    assert!(matches!(store.undo(id, 3, "A", 4).unwrap(), Moved::Conflict(r) if r.number == 2));
    assert_eq!(to(store.undo(id, 2, "A", 5).unwrap()), 1);
    assert!(matches!(store.undo(id, 1, "A", 6), Err(StoreError::NothingToUndo(_))));
    assert_eq!(store.list(&Listing::default()).unwrap().projects[0].name, "a");
    assert_eq!(to(store.redo(id, 1, "A", 7).unwrap()), 2);
    assert_eq!(to(store.redo(id, 2, "A", 8).unwrap()), 3);
    assert_eq!(to(store.undo(id, 3, "A", 9).unwrap()), 2);
    assert_eq!(store.save(&save(id, 2, &named("d"), 10)).unwrap(), Saved::Revision(4));
    assert!(matches!(store.redo(id, 4, "A", 11), Err(StoreError::NothingToRedo(_))));
    assert_eq!(to(store.undo(id, 4, "A", 12).unwrap()), 2);
    assert_eq!(to(store.redo(id, 2, "A", 13).unwrap()), 4);
    let moves: Vec<_> = store.movements(id).unwrap().into_iter().map(|m| (m.kind, m.to)).collect();
    let moves: Vec<_> = moves.iter().map(|(kind, to)| (kind.as_str(), *to)).collect();
    let (save, undo, redo) = ("save", "undo", "redo");
    assert_eq!(
        moves,
        [
            (save, 1),
            (save, 2),
            (save, 3),
            (undo, 2),
            (undo, 1),
            (redo, 2),
            (redo, 3),
            (undo, 2),
            (save, 4),
            (undo, 2),
            (redo, 4),
        ]
    );
    let names: Vec<_> =
        store.history(id).unwrap().into_iter().map(|h| (h.name, h.current)).collect();
    let expected = [("a", false), ("b", false), ("c", false), ("d", true)];
    assert_eq!(names, expected.map(|(name, current)| (name.to_owned(), current)));
}

#[test]
fn list_searches_pages_orders_and_shows_the_verdict_of_the_current_revision() {
    let mut store = Store::in_memory().unwrap();
    for (i, name) in ["Mill 100%", "ÄUSSERE Au", "mill_b", "Creek"].iter().enumerate() {
        new(&mut store, &named(name), i64::try_from(i).unwrap());
    }
    let names = |listing: &Listing, store: &Store| -> Vec<String> {
        store.list(listing).unwrap().projects.into_iter().map(|p| p.name).collect()
    };
    let all = Listing::default();
    assert_eq!(names(&all, &store), ["Creek", "mill_b", "ÄUSSERE Au", "Mill 100%"]);
    let search = |text: &str| Listing { search: text.to_owned(), ..Listing::default() };
    assert_eq!(names(&search("MILL"), &store), ["mill_b", "Mill 100%"]);
    assert_eq!(names(&search("äussere"), &store), ["ÄUSSERE Au"]);
    assert_eq!(names(&search("%"), &store), ["Mill 100%"]);
    assert_eq!(names(&search("_"), &store), ["mill_b"]);
    let page = Listing { order: Order::Name, skip: 1, most: 2, ..Listing::default() };
    let page = store.list(&page).unwrap();
    let found: Vec<_> = page.projects.iter().map(|p| p.name.as_str()).collect();
    assert_eq!((found, page.total), (vec!["Mill 100%", "mill_b"], 4));
    store.set_verdict(1, 1, "met, 23 checks").unwrap();
    store.save(&save(1, 1, &named("Weir"), 50)).unwrap();
    let line = |store: &Store| store.list(&all).unwrap().projects.remove(0);
    let top = line(&store);
    assert_eq!((top.name.as_str(), top.revisions, top.current, top.verdict), ("Weir", 2, 2, None));
    assert_eq!((top.changed_at, top.changed_by.as_str()), (50, "B"));
    store.undo(1, 2, "C", 51).unwrap();
    let top = line(&store);
    assert_eq!((top.verdict.as_deref(), top.name.as_str()), (Some("met, 23 checks"), "Mill 100%"));
    assert!(matches!(store.set_verdict(1, 9, ""), Err(StoreError::NoSuchRevision { .. })));
}

#[test]
fn an_archived_project_is_kept_and_comes_back() {
    let mut store = Store::in_memory().unwrap();
    let id = new(&mut store, CREEK, 1);
    store.archive(id, "A", 2).unwrap();
    assert_eq!(store.list(&Listing::default()).unwrap().total, 0);
    let shelf = Listing { shown: Shown::Archived, ..Listing::default() };
    assert_eq!(store.list(&shelf).unwrap().projects[0].archived_at, Some(2));
    assert!(matches!(store.save(&save(id, 1, CREEK, 3)), Err(StoreError::Archived(_))));
    assert!(matches!(store.undo(id, 1, "A", 3), Err(StoreError::Archived(_))));
    assert_eq!(store.current(id).unwrap().text, CREEK);
    store.restore_project(id).unwrap();
    assert_eq!(store.save(&save(id, 1, CREEK, 3)).unwrap(), Saved::Revision(2));
    assert!(matches!(store.archive(77, "A", 1), Err(StoreError::NoSuchProject(77))));
}

#[test]
fn drafts_may_be_anything_and_belong_to_a_client() {
    let mut store = Store::in_memory().unwrap();
    let id = new(&mut store, CREEK, 1);
    let draft = |text: &str| Draft { text: text.to_owned(), base: 1, who: "A".to_owned(), at: 9 };
    store.save_draft(id, "window 1", &draft("name = \"half")).unwrap();
    store.save_draft(id, "window 2", &draft("")).unwrap();
    store.save_draft(id, "window 1", &draft("\0[[[\u{1F6B0}")).unwrap();
    assert_eq!(store.load_draft(id, "window 1").unwrap(), Some(draft("\0[[[\u{1F6B0}")));
    assert_eq!(store.load_draft(id, "window 2").unwrap(), Some(draft("")));
    assert_eq!(store.load_draft(id, "window 3").unwrap(), None);
    store.drop_draft(id, "window 1").unwrap();
    assert_eq!(store.load_draft(id, "window 1").unwrap(), None);
    assert!(matches!(store.load_draft(5, "x"), Err(StoreError::NoSuchProject(5))));
}

#[test]
fn preferences_belong_to_a_user() {
    let mut store = Store::in_memory().unwrap();
    store.set_preference("A", "units", "us").unwrap();
    store.set_preference("A", "units", "si").unwrap();
    store.set_preference("A", "theme", "dark").unwrap();
    store.set_preference("B", "units", "us").unwrap();
    assert_eq!(store.preference("A", "units").unwrap().as_deref(), Some("si"));
    assert_eq!(store.preference("C", "units").unwrap(), None);
    let pairs = [("theme", "dark"), ("units", "si")].map(|(a, b)| (a.to_owned(), b.to_owned()));
    assert_eq!(store.preferences("A").unwrap(), pairs);
}

#[test]
fn what_cannot_be_kept_is_refused_with_code_and_hint_and_changes_nothing() {
    let mut store = Store::in_memory().unwrap();
    let id = new(&mut store, CREEK, 1);
    let mut code = |text: &str| {
        let error = store.save(&save(id, 1, text, 2)).unwrap_err();
        assert!(!error.hint().is_empty() && !error.to_string().ends_with('.'));
        error.code()
    };
    assert_eq!(code("name = "), "not_toml");
    assert_eq!(code("format = 1"), "no_name");
    assert_eq!(code("name = \"  \""), "no_name");
    assert_eq!(code("name = 3"), "no_name");
    assert_eq!(code(&named(&"n".repeat(20_000))), "too_long");
    assert_eq!(code(&format!("{CREEK}#{}", "x".repeat(5_000_000))), "too_long");
    let file = |name: &str| NamedBytes { name: name.to_owned(), bytes: vec![] };
    for (files, expected) in [
        (vec![file("")], "file_name"),
        (vec![file("a\nb")], "file_name"),
        (vec![file("a"), file("a")], "file_twice"),
    ] {
        let files = Files::These(&files);
        let error = store.save(&Save { files, ..save(id, 1, CREEK, 2) }).unwrap_err();
        assert_eq!(error.code(), expected);
    }
    assert_eq!(store.save(&save(8, 1, CREEK, 2)).unwrap_err().code(), "no_such_project");
    assert_eq!(store.revision(id, 2).unwrap_err().code(), "no_such_revision");
    assert_eq!(store.history(id).unwrap().len(), 1);
}

proptest! {
    #[test]
    fn any_text_that_is_toml_with_a_name_comes_back(
        name in "\\PC{1,40}", comment in "[^\u{0}-\u{1f}\u{7f}]{0,80}", bytes: Vec<u8>, at: i64, who in "\\PC{0,20}"
    ) {
        prop_assume!(!name.trim().is_empty() && !name.contains(['"', '\\']));
        let text = format!("#{comment}\r\nname = \"{name}\"\t#{comment}");
        let mut store = Store::in_memory().unwrap();
        let files = [NamedBytes { name: "b".to_owned(), bytes }];
        let id = store.create(&NewProject { text: &text, files: &files, who: &who, at }).unwrap();
        let found = store.current(id).unwrap();
        prop_assert_eq!(found.text, text);
        prop_assert_eq!(found.files, files);
        prop_assert_eq!((found.name.as_str(), found.who, found.at), (name.trim(), who, at));
    }
}

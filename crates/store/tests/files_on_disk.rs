//! Older, newer, foreign and damaged files; two stores on one file; backups and the way back.

use std::fs;
use std::path::{Path, PathBuf};

use rusqlite::Connection;
use store::{
    Draft, Files, Listing, Moved, NEWEST_VERSION, NewProject, Overwrite, Save, Saved, Store,
    StoreError,
};

const CREEK: &str = include_str!("../../../demo/creek.toml");
const VERSION_1: &str = include_str!("fixtures/version-1.sql");

fn folder() -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().expect("the helper works");
    let path = folder.path().join("designs.store");
    (folder, path)
}

fn new(store: &mut Store, text: &str) -> i64 {
    store.create(&NewProject { text, files: &[], who: "A", at: 1 }).expect("the helper works")
}

fn save<'a>(project: i64, base: u32, text: &'a str) -> Save<'a> {
    let files = Files::AsBefore;
    Save { project, base, text, files, what_changed: "", who: "B", at: 2, set_aside: true }
}

fn schema(path: &Path) -> Vec<String> {
    let connection = Connection::open(path).expect("the helper works");
    let mut statement = connection
        .prepare("SELECT coalesce(sql, name) FROM sqlite_schema ORDER BY type, name")
        .expect("the helper works");
    statement
        .query_map([], |row| row.get(0))
        .expect("the helper works")
        .map(Result::unwrap)
        .collect()
}

#[test]
fn a_file_of_version_1_keeps_everything_and_gets_the_newest_shape() {
    let (folder, path) = folder();
    Connection::open(&path).unwrap().execute_batch(VERSION_1).unwrap();
    let mut store = Store::open(&path).unwrap();
    assert_eq!(store.version().unwrap(), NEWEST_VERSION);
    store.check().unwrap();
    let old = store.current(1).unwrap();
    assert_eq!((old.number, old.text.as_str()), (1, "# kept\nname = \"Old\""));
    assert_eq!(
        (old.verdict.as_deref(), old.files[0].bytes.as_slice()),
        (Some("met"), &[0, 255][..])
    );
    assert!(matches!(store.redo(1, 1, "B", 20).unwrap(), Moved::To(r) if r.name == "Newer"));
    assert_eq!(store.save(&save(1, 2, CREEK)).unwrap(), Saved::Revision(3));
    let draft = Draft { text: "x".to_owned(), base: 3, who: "B".to_owned(), at: 3 };
    store.save_draft(1, "w", &draft).unwrap();
    drop(store);
    let fresh = folder.path().join("fresh.store");
    drop(Store::open(&fresh).unwrap());
    assert_eq!(schema(&path), schema(&fresh));
}

#[test]
fn newer_and_foreign_files_are_refused_and_not_touched() {
    let (_folder, path) = folder();
    drop(Store::open(&path).unwrap());
    Connection::open(&path).unwrap().pragma_update(None, "user_version", 99).unwrap();
    let before = fs::read(&path).unwrap();
    let error = Store::open(&path).unwrap_err();
    assert!(matches!(error, StoreError::Newer { found: 99, known: NEWEST_VERSION }), "{error:?}");
    assert_eq!(fs::read(&path).unwrap(), before);
    let foreign = path.with_extension("other");
    Connection::open(&foreign).unwrap().execute_batch("CREATE TABLE t (x)").unwrap();
    let before = fs::read(&foreign).unwrap();
    assert!(matches!(Store::open(&foreign), Err(StoreError::Foreign)));
    assert_eq!(fs::read(&foreign).unwrap(), before);
    let text = path.with_extension("toml");
    fs::write(&text, CREEK).unwrap();
    assert!(matches!(Store::open(&text), Err(StoreError::NotADatabase)));
    assert_eq!(fs::read_to_string(&text).unwrap(), CREEK);
    let missing = path.with_extension("d").join("designs.store");
    assert!(matches!(Store::open(missing), Err(StoreError::CannotOpen(_))));
}

/// Every reading of a store that may be damaged.
fn read_all(path: &Path) -> Result<(), StoreError> {
    let store = Store::open(path)?;
    store.check()?;
    for project in store.list(&Listing::default())?.projects {
        for line in store.history(project.id)? {
            store.revision(project.id, line.number)?;
        }
    }
    Ok(())
}

#[test]
fn damage_anywhere_is_an_error_and_never_a_panic() {
    let (_folder, path) = folder();
    let mut store = Store::open(&path).unwrap();
    for _ in 0..5 {
        let id = new(&mut store, CREEK);
        store.save(&save(id, 1, CREEK)).unwrap();
    }
    let copy = path.with_extension("copy");
    store.backup(&copy, Overwrite::Refuse).unwrap();
    let good = fs::read(&copy).unwrap();
    let hurt = path.with_extension("hurt");
    let (mut refused, mut codes) = (0, std::collections::BTreeSet::new());
    let pages = good.len() / 4096;
    for page in 0..pages {
        let mut bytes = good.clone();
        // The head of each page in turn: there the structure stands.
        for byte in &mut bytes[page * 4096..page * 4096 + 40] {
            *byte ^= 0xa5;
        }
        fs::write(&hurt, bytes).unwrap();
        if let Err(error) = read_all(&hurt) {
            refused += 1;
            codes.insert(error.code());
        }
    }
    // The bytes of a long text carry no check of their own; all other pages do.
    assert!(refused > pages / 3, "{refused} of {pages}");
    assert!(codes.contains("damaged") && codes.contains("not_a_database"), "{codes:?}");
    fs::write(&hurt, &good[..good.len() / 2]).unwrap();
    assert_eq!(read_all(&hurt).unwrap_err().code(), "damaged");
    fs::write(&hurt, &good).unwrap();
    read_all(&hurt).unwrap();
}

#[test]
fn two_stores_on_one_file_see_each_other_and_conflict_cleanly() {
    let (_folder, path) = folder();
    let mut one = Store::open(&path).unwrap();
    let mut two = Store::open(&path).unwrap();
    let id = new(&mut one, CREEK);
    assert_eq!(two.save(&save(id, 1, CREEK)).unwrap(), Saved::Revision(2));
    assert!(matches!(
        one.save(&save(id, 1, CREEK)).unwrap(),
        Saved::Conflict { copy: Some(_), .. }
    ));
    // Four writers race for the same base again and again: each number is given once.
    let threads: Vec<_> = (0..4)
        .map(|_| {
            let mut store = Store::open(&path).unwrap();
            std::thread::spawn(move || {
                let mut won = Vec::new();
                while won.len() < 5 {
                    let base = store.current(id).unwrap().number;
                    if let Saved::Revision(number) = store.save(&save(id, base, CREEK)).unwrap() {
                        won.push(number);
                    }
                }
                won
            })
        })
        .collect();
    let mut numbers: Vec<u32> = threads.into_iter().flat_map(|t| t.join().unwrap()).collect();
    numbers.sort_unstable();
    assert_eq!(numbers, (3..=22).collect::<Vec<_>>());
    assert_eq!(one.history(id).unwrap().len(), 22);
    one.check().unwrap();
}

#[test]
fn two_programs_may_make_the_file_at_once() {
    let (_folder, path) = folder();
    let threads: Vec<_> = (0..6)
        .map(|_| {
            let path = path.clone();
            std::thread::spawn(move || Store::open(path).map(|s| s.version().unwrap()))
        })
        .collect();
    for thread in threads {
        assert_eq!(thread.join().unwrap().unwrap(), NEWEST_VERSION);
    }
}

#[test]
fn backup_is_one_sound_file_and_restore_puts_the_old_one_aside() {
    let (_folder, path) = folder();
    let mut store = Store::open(&path).unwrap();
    let id = new(&mut store, CREEK);
    let copy = path.with_extension("backup");
    store.backup(&copy, Overwrite::Refuse).unwrap();
    assert!(matches!(store.backup(&copy, Overwrite::Refuse), Err(StoreError::TargetExists(_))));
    assert!(matches!(store.backup(&path, Overwrite::Replace), Err(StoreError::TargetExists(_))));
    store.save(&save(id, 1, CREEK)).unwrap();
    assert!(matches!(
        Store::restore(&copy, &path, Overwrite::Refuse),
        Err(StoreError::TargetExists(_))
    ));
    // While it is open nobody may pull the file away below it.
    assert!(matches!(Store::restore(&copy, &path, Overwrite::Replace), Err(StoreError::Busy)));
    assert_eq!(store.history(id).unwrap().len(), 2);
    drop(store);
    let aside = Store::restore(&copy, &path, Overwrite::Replace).unwrap().put_aside.unwrap();
    assert_eq!(Store::open(&path).unwrap().history(id).unwrap().len(), 1);
    assert_eq!(Store::open(aside).unwrap().history(id).unwrap().len(), 2);
    let elsewhere = path.with_extension("elsewhere");
    // A log that a lost store left behind must not be read into the new one.
    let log = path.with_extension("elsewhere-wal");
    fs::write(&log, b"left behind").expect("it is written");
    assert_eq!(Store::restore(&copy, &elsewhere, Overwrite::Refuse).unwrap().put_aside, None);
    assert!(!log.exists());
    store_again(&elsewhere, &copy);
    assert_eq!(Store::open(&elsewhere).unwrap().current(id).unwrap().text, CREEK);
}

/// A backup may be replaced by a newer one, but not while somebody reads it.
fn store_again(of: &Path, copy: &Path) {
    let store = Store::open(of).expect("it opens");
    store.backup(copy, Overwrite::Replace).expect("nobody reads the copy");
    let reader = Store::open(copy).expect("it opens");
    assert!(matches!(store.backup(copy, Overwrite::Replace), Err(StoreError::Busy)));
    drop(reader);
}

#[test]
fn a_damaged_store_can_be_replaced_and_a_damaged_copy_replaces_nothing() {
    let (_folder, path) = folder();
    let mut store = Store::open(&path).unwrap();
    let id = new(&mut store, CREEK);
    let copy = path.with_extension("backup");
    store.backup(&copy, Overwrite::Refuse).unwrap();
    drop(store);
    let good = fs::read(&path).unwrap();
    let bad = path.with_extension("bad");
    fs::write(&bad, &good[..good.len() / 2]).unwrap();
    let error = Store::restore(&bad, &path, Overwrite::Replace).unwrap_err();
    assert_eq!(error.code(), "damaged");
    assert_eq!(fs::read(&path).unwrap(), good);
    let missing = path.with_extension("missing");
    assert!(Store::restore(&missing, &path, Overwrite::Replace).is_err());
    assert!(!missing.exists());
    fs::write(&path, b"no database at all").unwrap();
    let aside = Store::restore(&copy, &path, Overwrite::Replace).unwrap().put_aside.unwrap();
    assert_eq!(fs::read(aside).unwrap(), b"no database at all");
    assert_eq!(Store::open(&path).unwrap().current(id).unwrap().text, CREEK);
}

//! Speed of what a person waits for: the list of many projects, saving, and a change of one value.

use store::edit::{Change, Value, set};
use store::{Files, Listing, NewProject, Save, Saved, Store};

const CREEK: &str = include_str!("../../../demo/creek.toml");

fn main() {
    divan::main();
}

/// A store with this many projects, each with the text of the demo.
fn filled(count: i64) -> Store {
    let mut store = Store::in_memory().expect("memory is there");
    for at in 0..count {
        let text = CREEK.replace("Tidal creek", &format!("Crossing {at}"));
        store.create(&NewProject { text: &text, files: &[], who: "A", at }).expect("it is stored");
    }
    store
}

#[divan::bench(args = [1000, 5000])]
fn first_page(bencher: divan::Bencher, count: i64) {
    let store = filled(count);
    let listing = Listing { most: 50, ..Listing::default() };
    bencher.bench_local(|| store.list(&listing));
}

#[divan::bench(args = [1000, 5000])]
fn search(bencher: divan::Bencher, count: i64) {
    let store = filled(count);
    let listing = Listing { search: "crossing 77".to_owned(), most: 50, ..Listing::default() };
    bencher.bench_local(|| store.list(&listing));
}

#[divan::bench]
fn save_on_disk(bencher: divan::Bencher) {
    let folder = tempfile::tempdir().expect("a folder is there");
    let mut store = Store::open(folder.path().join("a.store")).expect("it opens");
    let new = NewProject { text: CREEK, files: &[], who: "A", at: 0 };
    let project = store.create(&new).expect("it is stored");
    let mut base = 1;
    bencher.bench_local(|| {
        let (text, files, what_changed, who, at) = (CREEK, Files::AsBefore, "", "A", 1);
        let save = Save { project, base, text, files, what_changed, who, at, set_aside: false };
        if let Ok(Saved::Revision(number)) = store.save(&save) {
            base = number;
        }
    });
}

#[divan::bench]
fn change_one_value() -> bool {
    set(CREEK, "/line/entry_angle", &Change::To(Value::Text("11 deg".to_owned()))).is_ok()
}

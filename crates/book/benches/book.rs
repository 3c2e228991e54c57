//! How long a calculation book takes.

use quantity::System;
use sheets::{Issue, Subject};

fn main() {
    divan::main();
}

/// The whole book of a demo, drawings and setting out made before.
#[divan::bench(args = ["creek", "street"], sample_count = 5)]
fn calculation_book(bencher: divan::Bencher<'_, '_>, name: &str) {
    let folder = format!("{}/../../demo", env!("CARGO_MANIFEST_DIR"));
    let near = |file: &str| std::fs::read(format!("{folder}/{file}")).map_err(|e| e.to_string());
    let file = format!("{name}.toml");
    let Ok(text) = std::fs::read_to_string(format!("{folder}/{file}")) else {
        panic!("the demo {file} cannot be read")
    };
    let Ok(reading) = project::read_design(&file, &text, &near) else {
        panic!("the demo {file} is not a design")
    };
    let subject = Subject::new(&reading.design, &file, Issue::default(), System::Metric);
    let drawings = sheets::drawing::drawings(&subject);
    let setting_out = assess::setting_out(&reading.design);
    bencher.bench(|| book::calculation_book(&subject, &drawings, &setting_out));
}

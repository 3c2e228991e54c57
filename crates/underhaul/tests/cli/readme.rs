//! What the README shows is what the program prints.

use crate::terminal::{Terminal, root};

const DEMO: &str = include_str!("../../../../demo/creek.toml");
const STREET: &str = include_str!("../../../../demo/street.toml");

/// Blocks of the README with this word behind their fence.
fn blocks(readme: &str, word: &str) -> Vec<String> {
    let fence = format!("\n```{word}\n");
    let parts = readme.split(fence.as_str()).skip(1);
    parts.filter_map(|part| Some(part.split_once("\n```")?.0.to_owned())).collect()
}

fn readme() -> String {
    std::fs::read_to_string(root().join("README.md")).unwrap()
}

#[test]
fn the_lines_of_the_crossing_stand_in_the_demo() {
    let blocks = blocks(&readme(), "toml");
    assert!(!blocks.is_empty());
    for block in blocks {
        let mut rest = DEMO.lines();
        for line in block.lines().filter(|l| !l.is_empty()) {
            assert!(rest.any(|l| l == line), "the demo does not hold, in this order: {line}");
        }
    }
}

#[test]
fn the_outputs_are_those_of_the_program() {
    let terminal = Terminal::new();
    std::fs::create_dir(terminal.folder().join("demo")).unwrap();
    terminal.write("demo/creek.toml", DEMO);
    terminal.write("demo/street.toml", STREET);
    let tight = DEMO.replacen("entry_radius = \"250 m\"", "entry_radius = \"140 m\"", 1);
    terminal.write("tight.toml", tight);
    let blocks = blocks(&readme(), "text");
    assert!(blocks.len() >= 3, "{blocks:?}");
    for block in blocks {
        let mut lines = block.lines();
        let command = lines.next().and_then(|l| l.strip_prefix("$ underhaul ")).unwrap();
        let shown = terminal.run(command);
        let mut rest = shown.out.lines();
        for line in lines.filter(|l| *l != "  …" && !l.is_empty()) {
            assert!(rest.any(|l| l == line), "README has the line\n{line}\nbut this is\n{shown}");
        }
    }
}

use super::Metadata;

/// A row of the table of crates: name and what it may import.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Crate {
    /// Name.
    pub name: String,
    /// Names that it may import; `None` for a crate that may import everything.
    pub may_import: Option<Vec<String>>,
}

/// The table of crates in the text of the architecture page.
///
/// A row is `| crate | sentence | may import |`; names may stand in backticks, separated by commas; `–` is nothing,
/// `all above` every crate of an earlier row, `everything` no limit. Words in parentheses are remarks. Other tables
/// are passed over: a row counts when its first cell is one of `own` and it has three cells or more.
#[must_use]
pub fn table_of(text: &str, own: &[String]) -> Vec<Crate> {
    let mut table: Vec<Crate> = Vec::new();
    for line in text.lines().map(str::trim).filter(|l| l.starts_with('|')) {
        let cells: Vec<&str> = line.trim_matches('|').split('|').map(str::trim).collect();
        let (Some(first), Some(last)) = (cells.first(), cells.last()) else { continue };
        let name = word(first);
        if cells.len() < 3 || !own.contains(&name) || table.iter().any(|c| c.name == name) {
            continue;
        }
        let above: Vec<String> = table.iter().map(|c| c.name.clone()).collect();
        table.push(Crate { name, may_import: imports_of(last, above, own) });
    }
    table
}

fn imports_of(cell: &str, above: Vec<String>, own: &[String]) -> Option<Vec<String>> {
    let cell = without_remarks(cell);
    let mut names = Vec::new();
    for part in cell.split([',', ';']).map(|p| p.trim().trim_end_matches('.').to_lowercase()) {
        match part.as_str() {
            "everything" | "all" => return None,
            "all above" | "everything above" => names.extend(above.iter().cloned()),
            _ => names.extend(part.split_whitespace().map(word).filter(|w| own.contains(w))),
        }
    }
    Some(names)
}

/// First word of a cell without backticks; `underhaul` for "`underhaul` (cli)".
fn word(cell: &str) -> String {
    cell.split_whitespace().next().unwrap_or("").trim_matches('`').to_owned()
}

fn without_remarks(cell: &str) -> String {
    let mut depth = 0usize;
    cell.chars()
        .filter(|c| {
            match c {
                '(' => depth += 1,
                ')' => {
                    depth = depth.saturating_sub(1);
                    return false;
                }
                _ => {}
            }
            depth == 0
        })
        .collect()
}

/// Imports among our own crates, normal ones: tests may import what they need.
#[must_use]
pub fn normal_imports(metadata: &Metadata) -> Vec<(String, String)> {
    let own: Vec<&str> = metadata.own().map(|p| p.name.as_str()).collect();
    metadata
        .own()
        .flat_map(|package| {
            package
                .dependencies
                .iter()
                .filter(|d| d.kind.is_none() && own.contains(&d.name.as_str()))
                .map(|d| (package.name.clone(), d.name.clone()))
        })
        .collect()
}

/// Imports that the table does not allow, and crates that it does not know.
#[must_use]
pub fn broken_imports(
    table: &[Crate],
    own: &[String],
    imports: &[(String, String)],
) -> Vec<String> {
    let mut broken: Vec<String> = own
        .iter()
        .filter(|name| !table.iter().any(|c| c.name == **name))
        .map(|name| format!("{name} has no row in the table of crates"))
        .collect();
    for (from, to) in imports {
        let Some(row) = table.iter().find(|c| c.name == *from) else { continue };
        if row.may_import.as_ref().is_some_and(|allowed| !allowed.contains(to)) {
            broken.push(format!("{from} imports {to}, which its row does not allow"));
        }
    }
    broken
}

#[cfg(test)]
mod tests {
    use super::*;

    fn own() -> Vec<String> {
        ["quantity", "line", "pull", "cli", "kit"].map(str::to_owned).to_vec()
    }

    const TEXT: &str = "
        | crate | one sentence | may import |
        |---|---|---|
        | `quantity` | Quantities: parse, print. | – |
        | `line` | Lines | `quantity` (and nothing of pull) |
        | `pull` | Forces | all above |
        | `cli` (the binary) | Commands | everything |
        | other | table | line |";

    fn imports(pairs: &[(&str, &str)]) -> Vec<(String, String)> {
        pairs.iter().map(|(a, b)| ((*a).to_owned(), (*b).to_owned())).collect()
    }

    #[test]
    fn table_is_read_with_its_words() {
        let table = table_of(TEXT, &own());
        let allowed: Vec<_> = table.iter().map(|c| c.may_import.clone()).collect();
        let names = |n: &[&str]| Some(n.iter().map(|s| (*s).to_owned()).collect::<Vec<_>>());
        assert_eq!(allowed, [names(&[]), names(&["quantity"]), names(&["quantity", "line"]), None]);
    }

    #[test]
    fn import_against_the_table_and_missing_rows_are_named() {
        let table = table_of(TEXT, &own());
        let kept = imports(&[("line", "quantity"), ("pull", "line"), ("cli", "pull")]);
        assert_eq!(
            broken_imports(&table, &own(), &kept),
            ["kit has no row in the table of crates"]
        );
        let broken = imports(&[("line", "pull"), ("quantity", "line")]);
        assert_eq!(
            broken_imports(&table, &own(), &broken)[1..],
            [
                "line imports pull, which its row does not allow",
                "quantity imports line, which its row does not allow"
            ]
        );
    }
}

use std::fs;
use std::path::{Path, PathBuf};

use super::Case;

/// Why the cases cannot be read.
#[derive(Debug)]
pub struct CasesError {
    /// Every defect, with the file it is in.
    pub defects: Vec<String>,
}

impl std::fmt::Display for CasesError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.defects.join("\n"))
    }
}

impl std::error::Error for CasesError {}

/// Reads every case below a folder, in the order of their paths.
///
/// # Errors
/// All defects of all files at once.
pub fn read_all(folder: &Path) -> Result<Vec<Case>, CasesError> {
    let mut defects = Vec::new();
    let mut files = Vec::new();
    if let Err(error) = collect(folder, &mut files) {
        defects.push(format!("cases: {error}"));
    }
    files.sort();
    let mut cases = Vec::new();
    for file in files {
        let id = id_of(folder, &file);
        let read = fs::read_to_string(&file)
            .map_err(|error| vec![error.to_string()])
            .and_then(|text| Case::read(&text, &id));
        match read {
            Ok(case) => cases.push(case),
            Err(found) => defects.extend(found.iter().map(|d| format!("cases/{id}.toml: {d}"))),
        }
    }
    if defects.is_empty() { Ok(cases) } else { Err(CasesError { defects }) }
}

fn collect(folder: &Path, files: &mut Vec<PathBuf>) -> std::io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            collect(&path, files)?;
        } else if path.extension().is_some_and(|e| e == "toml") {
            files.push(path);
        }
    }
    Ok(())
}

fn id_of(folder: &Path, file: &Path) -> String {
    let below = file.strip_prefix(folder).unwrap_or(file).with_extension("");
    let parts: Vec<_> = below.iter().map(|part| part.to_string_lossy()).collect();
    parts.join("/")
}

//! A second engine: LibreOffice, without a screen and with a profile of its own.

use std::path::Path;
use std::process::Command;

/// Settings: always recalculate what is opened.
const SETTINGS: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
"#;

/// Recalculates workbooks and returns them in the same order.
pub fn recalculated(books: &[(&str, Vec<u8>)]) -> Vec<Vec<u8>> {
    let folder = tempfile::tempdir().unwrap();
    let profile = folder.path().join("profile");
    std::fs::create_dir_all(profile.join("user")).unwrap();
    std::fs::write(profile.join("user/registrymodifications.xcu"), SETTINGS).unwrap();
    let (from, to) = (folder.path().join("from"), folder.path().join("to"));
    std::fs::create_dir_all(&from).unwrap();
    let files: Vec<_> = books
        .iter()
        .map(|(name, bytes)| {
            let path = from.join(format!("{name}.xlsx"));
            std::fs::write(&path, bytes).unwrap();
            path
        })
        .collect();
    let mut command = Command::new("soffice");
    command
        .arg(format!("-env:UserInstallation=file://{}", profile.display()))
        .args(["--headless", "--norestore", "--convert-to", "xlsx", "--outdir"])
        .arg(&to)
        .args(&files);
    let output = command.output().unwrap_or_else(|e| {
        panic!(
            "soffice, the second engine that recalculates the workbook, cannot be started ({e}): \
                install LibreOffice Calc (on Debian: apt-get install libreoffice-calc-nogui)"
        )
    });
    books
        .iter()
        .map(|(name, _)| {
            let path = to.join(format!("{name}.xlsx"));
            read(&path).unwrap_or_else(|| {
                panic!(
                    "soffice made no {name}: {} {}",
                    String::from_utf8_lossy(&output.stdout),
                    String::from_utf8_lossy(&output.stderr)
                )
            })
        })
        .collect()
}

fn read(path: &Path) -> Option<Vec<u8>> {
    std::fs::read(path).ok()
}

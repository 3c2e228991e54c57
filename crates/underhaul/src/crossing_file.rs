//! Reads a crossing file from disk or from standard input.

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use project::{DesignReading, LARGEST_FILE};

use crate::failure::{Complaint, Failure};
use crate::invocation::invocation;

/// What a reader calls a file; `-` is standard input.
pub(crate) fn name(path: &Path) -> String {
    if path == Path::new("-") { "standard input".to_owned() } else { path.display().to_string() }
}

/// The crossing or renewal in a file, with what somebody should look at in it; `-` is standard input.
pub(crate) fn read(path: &Path) -> Result<DesignReading, Failure> {
    let name = name(path);
    let bytes = if path == Path::new("-") {
        bounded(io::stdin().lock(), &name)?
    } else {
        from_disk(path, &name)?
    };
    let folder = path.parent().map(Path::to_owned).unwrap_or_default();
    let beside = |file: &str| read_beside(&folder, file);
    project::read_bytes(&name, &bytes, &beside).map_err(Failure::File)
}

/// The bytes of a file that the crossing file names; in the folder of the crossing file, or in the current one where
/// that comes from standard input.
fn read_beside(folder: &Path, file: &str) -> Result<Vec<u8>, String> {
    let path = folder.join(file);
    let why = |e: &io::Error| match e.kind() {
        io::ErrorKind::NotFound => "there is no such file".to_owned(),
        io::ErrorKind::PermissionDenied => "it may not be read by this user".to_owned(),
        _ => e.to_string(),
    };
    if std::fs::metadata(&path).map_err(|e| why(&e))?.is_dir() {
        return Err("it is a folder".to_owned());
    }
    let most = exchange::LARGEST_FILE as u64;
    let mut bytes = Vec::new();
    let opened = File::open(&path).map_err(|e| why(&e))?;
    opened.take(most + 1).read_to_end(&mut bytes).map_err(|e| why(&e))?;
    Ok(bytes)
}

fn from_disk(path: &Path, name: &str) -> Result<Vec<u8>, Failure> {
    let refused = |e: &io::Error| Failure::from(unreadable(name, e));
    // Asked before opening, because a folder opens on some systems and only fails to be read.
    let kind = std::fs::metadata(path).map_err(|e| refused(&e))?;
    if kind.is_dir() {
        let complaint = Complaint::new("is_a_folder", format!("{name} is a folder"))
            .about(name)
            .hint("name the crossing file in it");
        return Err(complaint.into());
    }
    bounded(File::open(path).map_err(|e| refused(&e))?, name)
}

/// Everything that can be read, as long as it is no more than a crossing file may hold.
fn bounded(from: impl Read, name: &str) -> Result<Vec<u8>, Failure> {
    let mut bytes = Vec::new();
    from.take(LARGEST_FILE as u64 + 1)
        .read_to_end(&mut bytes)
        .map_err(|e| Failure::from(unreadable(name, &e)))?;
    if bytes.len() > LARGEST_FILE {
        let most = LARGEST_FILE / 1_000_000;
        let message = format!("{name} is larger than {most} MB, and no crossing file is");
        let complaint = Complaint::new("too_large", message)
            .about(name)
            .hint("a crossing file holds a few hundred lines: is this the right file?");
        return Err(complaint.into());
    }
    Ok(bytes)
}

fn unreadable(name: &str, error: &io::Error) -> Complaint {
    let complaint = match error.kind() {
        io::ErrorKind::NotFound => {
            let hint = format!(
                "check the name and the folder, or start a file with: {} new FILE",
                invocation()
            );
            Complaint::new("file_not_found", format!("there is no file {name}")).hint(hint)
        }
        io::ErrorKind::PermissionDenied => {
            Complaint::new("file_not_readable", format!("{name} may not be read by this user"))
                .hint("ask the file's owner for the right to read it")
        }
        _ => Complaint::new("file_not_readable", format!("{name} cannot be read: {error}")),
    };
    complaint.about(name)
}

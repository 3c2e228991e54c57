//! Files written so that nothing is lost: all or none of those that are in the way, each whole or not at all.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use sheets::NamedFile;

use crate::failure::{Complaint, Failure};

/// Writes files; `folder` says that they go into a folder that may have to be made.
///
/// # Errors
/// When a file is in the way and may not be replaced (then nothing was written), or the system refuses.
pub(super) fn write_all(
    files: &[(PathBuf, &NamedFile)],
    folder: bool,
    replace: bool,
) -> Result<(), Failure> {
    let blocked = |path: &Path| path.is_dir() || (!replace && path.exists());
    let in_the_way: Vec<Complaint> =
        files.iter().filter(|(p, _)| blocked(p)).map(|(p, _)| in_the_way(p)).collect();
    if !in_the_way.is_empty() {
        return Err(Failure::Told(in_the_way));
    }
    if folder && let Some(parent) = files.first().and_then(|(p, _)| p.parent()) {
        fs::create_dir_all(parent).map_err(|e| refused(parent, &e))?;
    }
    for (path, file) in files {
        write_whole(path, &file.bytes).map_err(|e| refused(path, &e))?;
    }
    Ok(())
}

/// Writes beside the place first, so that a full disk leaves the earlier file as it was.
fn write_whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut beside = path.as_os_str().to_owned();
    beside.push(".part");
    let beside = PathBuf::from(beside);
    let written = (|| {
        let mut file = File::create(&beside)?;
        file.write_all(bytes)?;
        file.sync_all()?;
        fs::rename(&beside, path)
    })();
    if written.is_err() {
        // What is left of an unfinished file helps nobody; the error itself is what the user needs.
        let _ = fs::remove_file(&beside);
    }
    written
}

fn in_the_way(path: &Path) -> Complaint {
    let name = path.display().to_string();
    if path.is_dir() {
        return Complaint::new("is_a_folder", format!("{name} is a folder"))
            .about(name)
            .hint("give the name of a file");
    }
    Complaint::new("file_exists", format!("{name} exists already and was left as it is"))
        .about(name)
        .hint("give another place, or add --replace")
}

fn refused(path: &Path, error: &io::Error) -> Failure {
    let name = path.display().to_string();
    let complaint = match error.kind() {
        io::ErrorKind::NotFound => {
            Complaint::new("folder_not_found", format!("the folder of {name} does not exist"))
                .hint("make the folder first, or give another name")
        }
        io::ErrorKind::StorageFull => {
            Complaint::new("disk_full", format!("{name} cannot be written: the disk is full"))
                .hint("free some space; an earlier file of that name is still as it was")
        }
        _ => Complaint::new("file_not_written", format!("{name} cannot be written: {error}")),
    };
    complaint.about(name).into()
}

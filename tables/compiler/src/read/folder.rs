//! The files of a folder.

use std::fs;
use std::io;
use std::path::Path;

use crate::diagnostic::Diagnostic;
use crate::report::Files;

/// Every `.toml` and `.csv` of the folder and of the folders right in it. A file that cannot be read is a diagnostic.
pub(crate) fn files(folder: &Path) -> Result<Files, Vec<Diagnostic>> {
    let mut files = Files::new();
    let mut failed = Vec::new();
    collect(folder, "", 1, &mut files, &mut failed);
    if failed.is_empty() {
        Ok(files)
    } else {
        failed.sort();
        Err(failed)
    }
}

fn collect(
    folder: &Path,
    prefix: &str,
    depth: usize,
    files: &mut Files,
    failed: &mut Vec<Diagnostic>,
) {
    let entries = match fs::read_dir(folder).and_then(Iterator::collect::<io::Result<Vec<_>>>) {
        Ok(entries) => entries,
        Err(error) => {
            let name = if prefix.is_empty() { "." } else { prefix };
            failed.push(unreadable(name, &error));
            return;
        }
    };
    for entry in entries {
        let (path, file_name) = (entry.path(), entry.file_name());
        let name = format!("{prefix}{}", file_name.to_string_lossy());
        let source = path
            .extension()
            .is_some_and(|ext| ext == "toml" || ext == "csv");
        // Editors and spreadsheets leave hidden files beside the ones they have open.
        if file_name.to_string_lossy().starts_with('.') {
            continue;
        }
        if path.is_dir() && depth > 0 {
            collect(&path, &format!("{name}/"), depth - 1, files, failed);
        } else if source {
            match fs::read_to_string(&path) {
                // Spreadsheets mark UTF-8 by a byte order mark.
                Ok(text) => {
                    let text = text
                        .strip_prefix('\u{feff}')
                        .map_or(text.clone(), str::to_owned);
                    files.insert(name, text);
                }
                Err(error) => failed.push(unreadable(&name, &error)),
            }
        }
    }
}

fn unreadable(name: &str, error: &io::Error) -> Diagnostic {
    let help = if error.kind() == io::ErrorKind::InvalidData {
        "save the file as UTF-8"
    } else {
        "see that the file is there and may be read"
    };
    Diagnostic {
        file: name.to_owned(),
        line: 0,
        column: 0,
        span: 0,
        text: String::new(),
        message: format!("cannot be read: {error}"),
        help: help.to_owned(),
    }
}

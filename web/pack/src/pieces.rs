//! The page's own files: found, ordered and joined.

use std::error::Error;
use std::path::{Path, PathBuf};
use std::{fs, io};

/// The files in a folder with that extension, sorted by name.
pub fn files(folder: &Path, ending: &str) -> io::Result<Vec<PathBuf>> {
    let mut files: Vec<PathBuf> = fs::read_dir(folder)?
        .map(|entry| Ok(entry?.path()))
        .collect::<io::Result<_>>()?;
    files.retain(|file| file.extension().is_some_and(|found| found == ending));
    files.sort();
    Ok(files)
}

/// The texts of the files, one after the other.
pub fn joined(files: &[PathBuf]) -> io::Result<String> {
    files.iter().map(fs::read_to_string).collect()
}

/// The modules as one script, each after those it imports, without imports and exports.
///
/// They all share one scope, so a name may be declared only once; the browser refuses a script that declares it twice.
pub fn bundled(folder: &Path, first: &str) -> Result<String, Box<dyn Error>> {
    let mut bundle = Bundle::default();
    bundle.add(&folder.join(first))?;
    Ok(bundle.text)
}

#[derive(Default)]
struct Bundle {
    text: String,
    begun: Vec<PathBuf>,
}

impl Bundle {
    fn add(&mut self, file: &Path) -> Result<(), Box<dyn Error>> {
        if self.begun.iter().any(|begun| begun == file) {
            return Ok(());
        }
        self.begun.push(file.to_owned());
        let text =
            fs::read_to_string(file).map_err(|error| format!("{}: {error}", file.display()))?;
        let folder = file.parent().unwrap_or(Path::new("."));
        for line in text.lines() {
            if let Some(imported) = imported(line) {
                self.add(&folder.join(imported))?;
            }
        }
        let kept = text.lines().filter(|line| imported(line).is_none());
        for line in kept {
            self.text
                .push_str(line.strip_prefix("export ").unwrap_or(line));
            self.text.push('\n');
        }
        Ok(())
    }
}

/// The file that a line imports: `import {a, b} from "./file.js";`.
fn imported(line: &str) -> Option<&str> {
    let (names, rest) = line.strip_prefix("import ")?.split_once(" from \"")?;
    names.starts_with('{').then(|| rest.strip_suffix("\";"))?
}

#[cfg(test)]
mod tests {
    use super::imported;

    #[test]
    fn an_import_line_gives_its_file() {
        assert_eq!(
            imported("import {a, b} from \"./words.js\";"),
            Some("./words.js")
        );
        assert_eq!(imported("export const imported = 1;"), None);
    }
}

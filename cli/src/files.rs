//! Getting texts from a file, from standard input, or from the bundled rule sets.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::ffi::{OsStr, OsString};
use std::fs::{self, File, FileType};
use std::io::{self, ErrorKind, Read};
use std::path::{Path, PathBuf};

use rules_core::text::{MAX_BYTES, exact_name, longer_than_read, read_bytes};
use rules_core::{Refusal, Refused, RulesText};

use crate::bundled;
use crate::usage::Trouble;

/// A text, and the name that a person knows it by.
pub struct Source {
    /// The name.
    pub name: String,
    /// The text, with replacement characters where it is not UTF-8.
    pub text: String,
    /// What is wrong with its bytes.
    pub refused: Option<Refused>,
}

/// The rule sets that a plan is judged by.
pub struct RuleSets(Vec<(Source, Bases)>);

impl RuleSets {
    /// The rule sets with these paths or names.
    pub fn of(names: &[OsString]) -> Result<Self, Trouble> {
        let all: Result<Vec<_>, Trouble> = names.iter().map(rules).collect();
        Ok(Self(all?))
    }

    /// The name of the first of them.
    pub fn name(&self) -> &str {
        self.0.first().map_or("", |(rules, _)| &rules.name)
    }

    /// Calls the library, unless the bytes of a file are not text.
    pub fn ask<T>(
        &self,
        plan: &Source,
        ask: impl FnOnce(&[RulesText<'_>]) -> Result<T, Refusal>,
    ) -> Result<T, Refusal> {
        self.unread(plan)?;
        let finders: Vec<_> = (self.0.iter())
            .map(|(_, bases)| |name: &str| bases.find(name))
            .collect();
        let sets = self.0.iter().zip(&finders);
        let sets = sets.map(|((rules, _), bases)| RulesText {
            name: &rules.name,
            text: &rules.text,
            bases,
        });
        ask(&sets.collect::<Vec<_>>())
    }

    /// Refuses a plan and rules whose bytes are not text.
    fn unread(&self, plan: &Source) -> Result<(), Refusal> {
        let several = self.0.len() > 1;
        let rules = self.0.iter().filter_map(|(rules, _)| {
            let refused = rules.refused.clone()?;
            let name = several.then(|| rules.name.clone());
            Some(Refused { name, ..refused })
        });
        let unreadable = Refusal {
            plan: plan.refused.clone(),
            rules: rules.collect(),
        };
        match unreadable == Refusal::default() {
            true => Ok(()),
            false => Err(unreadable),
        }
    }
}

/// Reads a file, or standard input for `-`.
///
/// Something that is not a regular file is not opened, because opening it may block for ever. A file that is too long
/// is not read.
pub fn read(path: &OsStr) -> Result<Source, Trouble> {
    if path == "-" {
        let name = "standard input";
        let bytes = up_to_limit(&mut io::stdin().lock());
        return Ok(source(
            name,
            bytes.map_err(|error| unreadable(name, &error))?,
        ));
    }
    let name = exact_name(&path.to_string_lossy()).into_owned();
    let wrong = |error: io::Error| unreadable(&name, &error);
    let about = fs::metadata(path).map_err(wrong)?;
    if !about.is_file() {
        return Err(no_file(&name, about.file_type()));
    }
    if about.len() > limit() {
        return Ok(Source {
            text: String::new(),
            refused: Some(Refused::new(None, "", longer_than_read())),
            name,
        });
    }
    let bytes = File::open(path).and_then(|mut file| up_to_limit(&mut file));
    Ok(source(&name, bytes.map_err(wrong)?))
}

fn limit() -> u64 {
    u64::try_from(MAX_BYTES).unwrap_or(u64::MAX)
}

/// Reads one byte more than the limit, which is enough for the library to refuse a longer text.
fn up_to_limit(from: &mut dyn Read) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    from.take(limit().saturating_add(1))
        .read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// The complaint about a path that is not a file.
fn no_file(name: &str, what: FileType) -> Trouble {
    let (what, help) = match what.is_dir() {
        true => ("folder", "Name a file in it."),
        false => (special(what), "Name a file; `-` reads what is piped in."),
    };
    Trouble::new(format!("`{name}` is a {what}, not a file."), help)
}

#[cfg(unix)]
fn special(what: FileType) -> &'static str {
    use std::os::unix::fs::FileTypeExt;
    match what {
        what if what.is_fifo() => "pipe",
        what if what.is_socket() => "socket",
        _ => "device",
    }
}

#[cfg(not(unix))]
fn special(_: FileType) -> &'static str {
    "device"
}

fn source(name: &str, bytes: Vec<u8>) -> Source {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(&bytes);
    let text = String::from_utf8_lossy(bytes).into_owned();
    let faults = match std::str::from_utf8(bytes) {
        Ok(_) => None,
        Err(_) => read_bytes(bytes).err(),
    };
    Source {
        name: name.to_owned(),
        refused: faults.map(|faults| Refused::new(None, &text, faults)),
        text,
    }
}

fn unreadable(name: &str, error: &io::Error) -> Trouble {
    let (what, help) = match error.kind() {
        ErrorKind::NotFound => (format!("There is no file `{name}`."), "Is the name right?"),
        ErrorKind::PermissionDenied => (
            format!("You are not allowed to read `{name}`."),
            "Ask the owner of the file for permission.",
        ),
        ErrorKind::IsADirectory => (
            format!("`{name}` is a folder, not a file."),
            "Name a file in it.",
        ),
        _ => (
            format!("`{name}` cannot be read: {error}."),
            "Is it a file?",
        ),
    };
    Trouble::new(what, help)
}

/// The rule set at that path, or the bundled one of that name.
pub fn rules(name: &OsString) -> Result<(Source, Bases), Trouble> {
    let path = Path::new(name);
    let bundled = name.to_str().and_then(bundled::rules);
    let said = name.to_string_lossy();
    // A folder of that name is no rule file.
    if let (Some(text), false) = (bundled, path.exists() && !path.is_dir()) {
        let text = source(&said, text.as_bytes().to_vec());
        return Ok((text, Bases::default()));
    }
    if name != "-" && !path.exists() {
        let bundled = bundled::names();
        return Err(Trouble::new(
            format!("There is no rule file `{}`.", exact_name(&said)),
            format!("Give the path of one, or the name of a bundled one: {bundled}."),
        ));
    }
    let beside = path.parent().map(Path::to_path_buf);
    Ok((read(name)?, Bases::beside(beside)))
}

/// The cases of a rule set: those beside its file, or those of the bundled one of that name.
pub fn cases(rules: &OsString) -> Result<Option<Source>, Trouble> {
    let path = Path::new(rules);
    if let (Some(text), false) = (
        rules.to_str().and_then(bundled::cases),
        path.exists() && !path.is_dir(),
    ) {
        return Ok(Some(source("its cases", text.as_bytes().to_vec())));
    }
    let beside = path.with_file_name("cases.yaml");
    match rules != "-" && beside.is_file() {
        true => read(beside.as_os_str()).map(Some),
        false => Ok(None),
    }
}

/// What a rule set can build on: the files beside it, then the bundled ones.
#[derive(Default)]
pub struct Bases {
    folder: Option<PathBuf>,
    found: RefCell<BTreeMap<String, Option<&'static str>>>,
}

impl Bases {
    fn beside(folder: Option<PathBuf>) -> Self {
        Self {
            folder,
            found: RefCell::default(),
        }
    }

    /// The text of the rule set of that name.
    pub fn find(&self, name: &str) -> Option<&'static str> {
        let mut found = self.found.borrow_mut();
        let text = found.entry(name.to_owned());
        *text.or_insert_with(|| self.beside_it(name).or_else(|| bundled::rules(name)))
    }

    /// `NAME.yaml` in the same folder, or `NAME/rules.yaml` in the folder above.
    fn beside_it(&self, name: &str) -> Option<&'static str> {
        let plain = name.chars().all(|c| c.is_ascii_alphanumeric() || c == '-');
        let folder = self.folder.as_ref().filter(|_| plain)?;
        let beside = folder.join(format!("{name}.yaml"));
        let next_door = folder.join("..").join(name).join("rules.yaml");
        let path = [beside, next_door]
            .into_iter()
            .find(|path| path.is_file())?;
        let source = read(path.as_os_str()).ok()?;
        // The reader borrows the text for the rest of the program, which ends right after.
        source.refused.is_none().then(|| &*source.text.leak())
    }
}

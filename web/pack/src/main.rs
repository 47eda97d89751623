//! Packs the form into one HTML file: `cargo run --release -p siting-pack` writes `target/form/index.html`.
//!
//! `--quick` builds the library without the slow optimisations. `--page-only` takes the library as last packed and
//! packs the page around it again.

mod engine;
mod page;
mod pieces;

use std::error::Error;
use std::path::{Path, PathBuf};
use std::{env, fs, io};

use lexopt::prelude::*;

/// Where the library comes from.
#[derive(Clone, Copy)]
enum Library {
    /// Built with all optimisations, for release.
    Full,
    /// Built fast.
    Quick,
    /// As last packed.
    AsItWas,
}

fn main() -> Result<(), Box<dyn Error>> {
    let library = asked()?;
    let web = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let out = target_folder(&web)?.join("form");
    fs::create_dir_all(&out)?;
    let engine = match library {
        Library::Full => engine::build(&web, &out, "form")?,
        Library::Quick => engine::build(&web, &out, "form-quick")?,
        Library::AsItWas => engine::kept(&out)?,
    };
    let html = page::packed(&web.join("page"), &engine)?;
    let file = out.join("index.html");
    fs::write(&file, &html)?;
    println!("{}: {} kB", file.display(), html.len() / 1000);
    if matches!(library, Library::Full) {
        // The command includes the page found here when it is built.
        fs::write(web.join("../cli/form/index.html"), &html)?;
    }
    Ok(())
}

fn asked() -> Result<Library, Box<dyn Error>> {
    let mut arguments = lexopt::Parser::from_env();
    let mut library = Library::Full;
    while let Some(argument) = arguments.next()? {
        library = match argument {
            Long("quick") => Library::Quick,
            Long("page-only") => Library::AsItWas,
            other => return Err(other.unexpected().into()),
        };
    }
    Ok(library)
}

/// The folder where cargo builds: the one it was told, or the checkout's own.
fn target_folder(web: &Path) -> io::Result<PathBuf> {
    match env::var_os("CARGO_TARGET_DIR") {
        Some(folder) => Ok(folder.into()),
        None => Ok(fs::canonicalize(web)?.join("../target")),
    }
}

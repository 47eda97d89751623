//! The page that is tried: the one that the packer wrote.

use std::env;
use std::path::{Path, PathBuf};

use crate::Trouble;

/// Where the packer puts the page.
pub fn page_file() -> Result<PathBuf, Trouble> {
    let checkout = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let target =
        env::var_os("CARGO_TARGET_DIR").map_or_else(|| checkout.join("target"), PathBuf::from);
    let file = target.join("form/index.html");
    match file.is_file() {
        true => Ok(file.canonicalize()?),
        false => Err("The form is not packed yet: run `cargo run --release -p siting-pack`, then the tests again.".into()),
    }
}

/// Its address, as a double-click would open it.
pub fn page_url() -> Result<String, Trouble> {
    Ok(format!("file://{}", page_file()?.display()))
}

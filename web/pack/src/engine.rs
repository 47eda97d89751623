//! The library inside the page, and the module that unpacks it: each is a WASM module and the script that calls it.

use std::error::Error;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::{env, fs};

use wasm_bindgen_cli_support::Bindgen;

/// What a browser runs.
const TARGET: &str = "wasm32-unknown-unknown";

/// A module and the script that calls it.
pub struct Module {
    /// The WASM.
    pub wasm: Vec<u8>,
    /// The script, as wasm-bindgen wrote it.
    pub glue: String,
}

/// What the page calls.
pub struct Engine {
    /// The library.
    pub library: Module,
    /// The module that unpacks it.
    pub unpacking: Module,
}

/// The crates of the two, and the names of their files.
const LIBRARY: [&str; 2] = ["siting-web", "engine"];
const UNPACKING: [&str; 2] = ["siting-unpack", "unpacking"];

/// Builds both for the browser and binds them. Their files stay in `out` for the next time.
pub fn build(web: &Path, out: &Path, profile: &str) -> Result<Engine, Box<dyn Error>> {
    add_target(web, &Tools::found())?;
    let target = out.join("build");
    // The small one is always built for size, which takes no time.
    bound(web, &target, UNPACKING, "form-unpacking")?;
    bound(web, &target, LIBRARY, profile)?;
    kept(out)
}

fn bound(
    web: &Path,
    target: &Path,
    [package, name]: [&str; 2],
    profile: &str,
) -> Result<(), Box<dyn Error>> {
    compile(web, target, package, profile)?;
    let file = format!("{TARGET}/{profile}/{}.wasm", package.replace('-', "_"));
    Bindgen::new()
        .input_path(target.join(file))
        .out_name(name)
        .web(true)?
        .typescript(false)
        .omit_default_module_path(true)
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate(target.join(".."))?;
    Ok(())
}

/// Both as they were last bound.
pub fn kept(out: &Path) -> Result<Engine, Box<dyn Error>> {
    Ok(Engine {
        library: module(out, LIBRARY)?,
        unpacking: module(out, UNPACKING)?,
    })
}

fn module(out: &Path, [_, name]: [&str; 2]) -> Result<Module, Box<dyn Error>> {
    let wasm = fs::read(out.join(format!("{name}_bg.wasm")));
    let wasm =
        wasm.map_err(|_| "The library was not packed yet: run this without --page-only first.")?;
    let glue = fs::read_to_string(out.join(format!("{name}.js")))?;
    Ok(Module { wasm, glue })
}

/// The programs that know the toolchain.
struct Tools {
    rustc: PathBuf,
    rustup: PathBuf,
}

impl Tools {
    fn found() -> Self {
        Self {
            rustc: env::var_os("RUSTC")
                .unwrap_or_else(|| "rustc".into())
                .into(),
            rustup: "rustup".into(),
        }
    }

    /// Whether the toolchain of the checkout has the standard library for the browser.
    fn has_target(&self, web: &Path) -> bool {
        let asked = Command::new(&self.rustc)
            .current_dir(web)
            .args(["--print", "target-libdir", "--target", TARGET])
            .output();
        let folder = asked.map(|said| String::from_utf8_lossy(&said.stdout).trim().to_owned());
        folder.is_ok_and(|folder| Path::new(&folder).is_dir())
    }
}

/// Adds the target to the toolchain where it is missing, and says so.
fn add_target(web: &Path, tools: &Tools) -> Result<(), Box<dyn Error>> {
    if tools.has_target(web) {
        return Ok(());
    }
    eprintln!("The toolchain lacks the target {TARGET}: `rustup target add {TARGET}` adds it.");
    let added = Command::new(&tools.rustup)
        .current_dir(web)
        .args(["target", "add", TARGET])
        .status();
    match added {
        Ok(status) if status.success() && tools.has_target(web) => Ok(()),
        Ok(_) => Err(format!(
            "rustup could not add the target {TARGET}; what it says stands above. It needs the network once."
        )
        .into()),
        Err(_) => Err(format!(
            "There is no rustup to add the target {TARGET}. Install Rust with rustup, or the package of your system \
             that holds Rust's standard library for this target."
        )
        .into()),
    }
}

/// Keeps the path of this machine's crates out of the module, so that its bytes are the same everywhere.
fn compile(web: &Path, target: &Path, package: &str, profile: &str) -> Result<(), Box<dyn Error>> {
    let cargo = env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let mut command = Command::new(cargo);
    command
        .current_dir(web)
        .args(["rustc", "-p", package, "--lib", "--crate-type", "cdylib"])
        .args(["--target", TARGET, "--profile", profile])
        .env("CARGO_TARGET_DIR", target)
        .env("RUSTFLAGS", remapped());
    match command.status()?.success() {
        true => Ok(()),
        false => Err(
            "The library could not be built for the browser; what cargo says stands above.".into(),
        ),
    }
}

fn remapped() -> String {
    let home =
        env::var("CARGO_HOME").or_else(|_| env::var("HOME").map(|home| format!("{home}/.cargo")));
    home.map_or_else(
        |_| String::new(),
        |home| format!("--remap-path-prefix={home}=crates"),
    )
}

#[cfg(all(test, unix))]
mod tests {
    use super::*;
    use std::os::unix::fs::PermissionsExt;

    /// A folder with a compiler that looks for the standard library in it, and with a rustup of these commands.
    fn tools(name: &str, rustup: Option<&str>) -> (PathBuf, Tools) {
        let folder = env::temp_dir().join(format!("siting-pack-{}-{name}", std::process::id()));
        let _ = fs::remove_dir_all(&folder);
        fs::create_dir_all(&folder).unwrap();
        let program = |name: &str, commands: &str| {
            let file = folder.join(name);
            fs::write(&file, format!("#!/bin/sh\n{commands}\n")).unwrap();
            fs::set_permissions(&file, fs::Permissions::from_mode(0o755)).unwrap();
            file
        };
        let rustc = program("rustc", "echo \"$PWD/lib\"");
        let rustup = match rustup {
            Some(commands) => program("rustup", commands),
            None => folder.join("nothing"),
        };
        (folder, Tools { rustc, rustup })
    }

    #[test]
    fn a_missing_target_is_added_once() {
        let (folder, tools) = tools("adds", Some("echo \"$@\" >> asked; mkdir lib"));
        for _ in 0..2 {
            add_target(&folder, &tools).unwrap();
        }
        let asked = fs::read_to_string(folder.join("asked")).unwrap();
        assert_eq!(asked, "target add wasm32-unknown-unknown\n");
        fs::remove_dir_all(folder).unwrap();
    }

    #[test]
    fn where_it_cannot_be_added_that_is_said() {
        let (folder, offline) = tools("fails", Some("exit 1"));
        let said = add_target(&folder, &offline).unwrap_err().to_string();
        assert!(said.contains("needs the network"), "{said}");
        fs::remove_dir_all(folder).unwrap();
        let (folder, bare) = tools("bare", None);
        let said = add_target(&folder, &bare).unwrap_err().to_string();
        assert!(said.contains("no rustup"), "{said}");
        fs::remove_dir_all(folder).unwrap();
    }
}

//! The library inside the page: the WASM, and the script that calls it.

use std::error::Error;
use std::path::Path;
use std::process::Command;
use std::{env, fs};

use wasm_bindgen_cli_support::Bindgen;

/// The library, ready to be packed.
pub struct Engine {
    /// The WASM module.
    pub wasm: Vec<u8>,
    /// The script that calls it, as wasm-bindgen wrote it.
    pub glue: String,
}

/// Builds the library for the browser and binds it. Both files stay in `out` for the next time.
pub fn build(web: &Path, out: &Path, profile: &str) -> Result<Engine, Box<dyn Error>> {
    let target = out.join("build");
    compile(web, &target, profile)?;
    let wasm = target.join(format!("wasm32-unknown-unknown/{profile}/siting_web.wasm"));
    Bindgen::new()
        .input_path(wasm)
        .out_name("engine")
        .web(true)?
        .typescript(false)
        .omit_default_module_path(true)
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate(out)?;
    kept(out)
}

/// The library as last bound.
pub fn kept(out: &Path) -> Result<Engine, Box<dyn Error>> {
    let wasm = fs::read(out.join("engine_bg.wasm"));
    let wasm =
        wasm.map_err(|_| "The library was not packed yet: run this without --page-only first.")?;
    let glue = fs::read_to_string(out.join("engine.js"))?;
    Ok(Engine { wasm, glue })
}

/// Keeps the path of this machine's crates out of the module, so that its bytes are the same everywhere.
fn compile(web: &Path, target: &Path, profile: &str) -> Result<(), Box<dyn Error>> {
    let cargo = env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let mut command = Command::new(cargo);
    command
        .current_dir(web)
        .args([
            "rustc",
            "-p",
            "siting-web",
            "--lib",
            "--crate-type",
            "cdylib",
        ])
        .args(["--target", "wasm32-unknown-unknown", "--profile", profile])
        .env("CARGO_TARGET_DIR", target)
        .env("RUSTFLAGS", remapped());
    match command.status()?.success() {
        true => Ok(()),
        false => Err(
            "The library could not be built for the browser; what cargo says stands above. \
            The target is installed by `rustup target add wasm32-unknown-unknown`."
                .into(),
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

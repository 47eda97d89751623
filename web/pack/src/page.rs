//! The single file: the page with its style, words, script and library inside, and a policy that lets nothing else run.

use std::error::Error;
use std::io::Write;
use std::path::Path;
use std::{fs, io};

use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use flate2::Compression;
use flate2::write::GzEncoder;
use sha2::{Digest, Sha256};

use crate::engine::Engine;
use crate::pieces::{bundled, files, joined};

/// The page as one text.
pub fn packed(page: &Path, engine: &Engine) -> Result<String, Box<dyn Error>> {
    let style = joined(&files(&page.join("style"), "css")?)?;
    let script = format!(
        "{}\n{}",
        called(&engine.glue),
        bundled(&page.join("script"), "main.js")?
    );
    let library = squeezed(&engine.wasm)?;
    let html = fs::read_to_string(page.join("page.html"))?;
    let pieces = [
        ("%policy%", policy(&script, &style)),
        ("%style%", style),
        ("%words%", words(page)?),
        ("%library%", BASE64_STANDARD.encode(library)),
        ("%script%", script),
    ];
    pieces
        .into_iter()
        .try_fold(html, |html, (mark, piece)| put(&html, mark, &piece))
}

/// Puts a piece in place of its mark.
fn put(html: &str, mark: &str, piece: &str) -> Result<String, Box<dyn Error>> {
    match html.split_once(mark) {
        Some((before, after)) => Ok(format!("{before}{piece}{after}")),
        None => Err(format!("page.html has no place for {mark}.").into()),
    }
}

/// The policy: nothing is loaded from anywhere, and only this script and this style are allowed.
fn policy(script: &str, style: &str) -> String {
    let (script, style) = (hash(script), hash(style));
    format!(
        "default-src 'none'; script-src 'sha256-{script}' 'wasm-unsafe-eval'; style-src 'sha256-{style}'; \
         img-src data:; base-uri 'none'; form-action 'none'"
    )
}

fn hash(text: &str) -> String {
    BASE64_STANDARD.encode(Sha256::digest(text))
}

fn squeezed(bytes: &[u8]) -> io::Result<Vec<u8>> {
    let mut writer = GzEncoder::new(Vec::new(), Compression::best());
    writer.write_all(bytes)?;
    writer.finish()
}

/// The words of each language, in a block that is read but never run.
fn words(page: &Path) -> Result<String, Box<dyn Error>> {
    let files = files(&page.join("words"), "json")?;
    let blocks = files.iter().map(|file| {
        let language = file.file_stem().unwrap_or_default().to_string_lossy();
        // Only a closing tag could end the text of such a block.
        let text = fs::read_to_string(file)?.replace('<', "\\u003c");
        Ok(format!(
            "<script type=\"application/json\" class=\"words\" data-language=\"{language}\">{text}</script>\n"
        ))
    });
    blocks.collect()
}

/// The script from wasm-bindgen in its own scope, as the constant `library`.
fn called(glue: &str) -> String {
    let exported: Vec<&str> = glue
        .lines()
        .filter_map(|line| line.strip_prefix("export function "))
        .filter_map(|rest| rest.split_once('('))
        .map(|(name, _)| name)
        .collect();
    let lines = glue.lines().filter(|line| !line.starts_with("export {"));
    let body: Vec<&str> = lines
        .map(|line| line.strip_prefix("export ").unwrap_or(line))
        .collect();
    format!(
        "const library = (() => {{\n{}\nreturn {{initSync, {}}};\n}})();\n",
        body.join("\n"),
        exported.join(", ")
    )
}

#[cfg(test)]
mod tests {
    use super::{called, put};

    #[test]
    fn a_piece_needs_a_place_on_the_page() {
        assert_eq!(put("a%x%b", "%x%", "1").unwrap(), "a1b");
        assert!(put("ab", "%x%", "1").is_err());
    }

    #[test]
    fn the_exported_calls_get_their_own_scope() {
        let glue = "export function check(a) {\n}\nfunction initSync() {}\nexport { initSync, __wbg_init as default };";
        let script = called(glue);
        assert!(script.contains("\nfunction check(a) {"));
        assert!(script.ends_with("return {initSync, check};\n})();\n"));
        assert!(!script.contains("export"));
    }
}

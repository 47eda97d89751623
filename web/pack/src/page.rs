//! The single file: the page with its style, words, script and library inside, and a policy that lets nothing else run.

use std::error::Error;
use std::io::Write;
use std::path::Path;
use std::{fs, io};

use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use flate2::Compression;
use flate2::write::DeflateEncoder;
use lzma_rust2::{LzmaOptions, LzmaWriter};
use sha2::{Digest, Sha256};
use siting_unpack::{PIECE, letters};

use crate::engine::Engine;
use crate::pieces::{bundled, files, joined};

/// The page as one text.
pub fn packed(page: &Path, engine: &Engine) -> Result<String, Box<dyn Error>> {
    let style = joined(&files(&page.join("style"), "css")?)?;
    let Engine { library, unpacking } = engine;
    let script = format!(
        "{}\n{}",
        called("unpacking", &unpacking.glue),
        bundled(&page.join("script"), "main.js")?
    );
    let calls = called("library", &library.glue);
    if calls.len() > PIECE {
        return Err(
            "The script that calls the library is longer than what is unpacked first.".into(),
        );
    }
    let squeezed = squeezed(&[calls.as_bytes(), &library.wasm].concat())?;
    let html = fs::read_to_string(page.join("page.html"))?;
    let pieces = [
        ("%policy%", policy(&[&script, &calls], &style)),
        ("%style%", style),
        (
            "%unpacking%",
            BASE64_STANDARD.encode(deflated(&unpacking.wasm)?),
        ),
        ("%long%", calls.len().to_string()),
        ("%library%", letters(&squeezed)),
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

/// The page's security policy: nothing is loaded from outside, and no other script or style is allowed.
fn policy(scripts: &[&str], style: &str) -> String {
    let hashed = |text: &&str| format!("'sha256-{}'", hash(text));
    let scripts: Vec<String> = scripts.iter().map(hashed).collect();
    let (scripts, style) = (scripts.join(" "), hash(style));
    format!(
        "default-src 'none'; script-src {scripts} 'wasm-unsafe-eval'; style-src 'sha256-{style}'; \
         img-src data:; base-uri 'none'; form-action 'none'"
    )
}

fn hash(text: &str) -> String {
    BASE64_STANDARD.encode(Sha256::digest(text))
}

/// The bytes as raw DEFLATE, which every browser unpacks by itself: what unpacks the rest must stand in the page first.
fn deflated(bytes: &[u8]) -> io::Result<Vec<u8>> {
    let mut writer = DeflateEncoder::new(Vec::new(), Compression::best());
    writer.write_all(bytes)?;
    writer.finish()
}

/// The bytes as LZMA, with the best settings for WASM, where nothing is aligned to two or four bytes.
fn squeezed(bytes: &[u8]) -> io::Result<Vec<u8>> {
    let mut options = LzmaOptions::with_preset(9);
    (options.lc, options.pb) = (4, 0);
    // The page has to keep this much at hand while it unpacks: everything, and no more.
    options.dict_size = u32::try_from(bytes.len().next_power_of_two()).map_err(io::Error::other)?;
    let size = Some(bytes.len() as u64);
    let mut writer = LzmaWriter::new_use_header(Vec::new(), &options, size)?;
    writer.write_all(bytes)?;
    writer.finish()
}

/// The script from wasm-bindgen in its own scope, as a constant of this name.
fn called(name: &str, glue: &str) -> String {
    let exported: Vec<&str> = glue
        .lines()
        .filter_map(|line| line.strip_prefix("export "))
        .filter_map(|rest| {
            rest.strip_prefix("function ")
                .or(rest.strip_prefix("class "))
        })
        .filter_map(|rest| rest.split(['(', ' ']).next())
        .collect();
    let lines = glue.lines().map(str::trim_start);
    let body: Vec<&str> = lines
        .filter(|line| !is_left_out(line))
        .map(|line| line.strip_prefix("export ").unwrap_or(line))
        .collect();
    let body = shortened(&body.join("\n"));
    format!(
        "const {name} = (() => {{\n{body}\nreturn {{init: __wbg_init, {}}};\n}})();\n",
        exported.join(", ")
    )
}

/// What wasm-bindgen says in many lines, in one: the page has hundreds of these.
const LONG: [(&str, &str); 3] = [
    ("let result;\ntry {\nresult = ", "try {\nreturn "),
    (
        "} catch (_) {\nresult = false;\n}\nconst ret = result;\nreturn ret;",
        "} catch (_) {\nreturn false;\n}",
    ),
    (";\nreturn ret;\n", ";return ret\n"),
];

fn shortened(glue: &str) -> String {
    let short = |glue: String, (long, short): (&str, &str)| glue.replace(long, short);
    let glue = LONG.into_iter().fold(glue.to_owned(), short);
    let at_once = |line: &str| {
        let value = line
            .strip_prefix("const ret = ")?
            .strip_suffix(";return ret")?;
        Some(format!("return {value};"))
    };
    let lines = glue
        .lines()
        .map(|line| at_once(line).unwrap_or_else(|| line.to_owned()));
    lines.collect::<Vec<_>>().join("\n")
}

/// Comment lines, which nobody reads in the page, and the list of exports.
fn is_left_out(line: &str) -> bool {
    let remark = ["/*", "*", "//"]
        .iter()
        .any(|begin| line.starts_with(begin));
    remark || line.is_empty() || line.starts_with("export {")
}

#[cfg(test)]
mod tests {
    use super::{called, put, squeezed};
    use siting_unpack::{Unpacking, letters};

    #[test]
    fn the_page_gets_the_bytes_that_were_packed() {
        let bytes: Vec<u8> = (0..100_000_u32)
            .flat_map(|n| (n % 1013 * n).to_le_bytes())
            .collect();
        let mut unpacking = Unpacking::new(&letters(&squeezed(&bytes).unwrap()));
        let pieces =
            std::iter::from_fn(|| Some(unpacking.piece()).filter(|piece| !piece.is_empty()));
        assert!(pieces.flatten().eq(bytes));
        assert!(Unpacking::new("damaged").piece().is_empty());
    }

    #[test]
    fn a_piece_needs_a_place_on_the_page() {
        assert_eq!(put("a%x%b", "%x%", "1").unwrap(), "a1b");
        assert!(put("ab", "%x%", "1").is_err());
    }

    #[test]
    fn the_exported_calls_get_their_own_scope() {
        let glue = "export class Held {\n}\n/**\n * Checks.\n */\nexport function check(a) {\n}\nfunction initSync() {}\nexport { initSync, __wbg_init as default };";
        let script = called("library", glue);
        assert!(
            script.starts_with("const library = (() => {\nclass Held {\n}\nfunction check(a) {")
        );
        assert!(script.ends_with("return {init: __wbg_init, Held, check};\n})();\n"));
        assert!(!script.contains("export"));
    }
}

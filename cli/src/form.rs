//! `siting form`: the form as one HTML file, written out or served on this machine.

use std::borrow::Cow;
use std::env;
use std::fs;
use std::io::{self, Read, Write};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::Duration;

use lexopt::prelude::*;
use rules_core::text::exact_name;

use crate::print;
use crate::usage::{self, Trouble, misread};

pub const HELP: &str = "\
The form: one page for a browser in which a plan is drawn and checked.

Usage: siting form [--out FILE]
       siting form --serve [PORT]

Without an option it writes siting-form.html into this folder; open it with a
double-click. The page needs no server and asks no network for anything.

Options:
  -o, --out FILE        Where the page is written
  -s, --serve [PORT]    Serve it on this machine only, at that port or at a free one
  -h, --help            Show this help

Exit status:
  0  the page is written
  4  anything else: no page packed in, no such folder, the port is taken
";

const FILE: &str = "siting-form.html";
/// No proper request is longer than this.
const REQUEST: usize = 8192;

/// The page, if it was packed before the command was built.
#[cfg(with_form)]
const PAGE: Option<&[u8]> = Some(include_bytes!("../form/index.html"));
#[cfg(not(with_form))]
const PAGE: Option<&[u8]> = None;

/// Reads the rest of the command line and does it.
pub fn run(mut arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    let (mut out, mut serve, mut port) = (None, false, None);
    while let Some(argument) = arguments.next().map_err(misread)? {
        match argument {
            Short('h') | Long("help") => return print::out(HELP),
            Short('o') | Long("out") => out = Some(arguments.value().map_err(misread)?),
            Short('s') | Long("serve") => {
                serve = true;
                port = arguments.optional_value();
            }
            Value(word) if serve && port.is_none() => port = Some(word),
            other => return Err(usage::unexpected(other, &["out", "serve", "help"])),
        }
    }
    let page = Page::found().ok_or_else(not_packed)?;
    match serve {
        true => answer_for_ever(&page, asked_port(port)?),
        false => write(&page, out.map_or_else(|| FILE.into(), PathBuf::from)),
    }
}

/// The page, and the file that it was read from where the command does not carry it.
struct Page {
    html: Cow<'static, [u8]>,
    file: Option<PathBuf>,
}

impl Page {
    /// The page that was packed last into the folder that cargo built this command in, else the one that it carries.
    fn found() -> Option<Self> {
        let packed = env::current_exe().ok().and_then(|command| {
            let file = command.parent()?.parent()?.join("form/index.html");
            let html = Cow::Owned(fs::read(&file).ok()?);
            let file = Some(file);
            Some(Self { html, file })
        });
        let carried = || {
            PAGE.map(|html| Self {
                html: Cow::Borrowed(html),
                file: None,
            })
        };
        packed.or_else(carried)
    }

    /// Where it is from, for a person.
    fn origin(&self) -> String {
        let said = |file: &Path| {
            let file = file.display().to_string();
            format!(
                " It is the page that was packed last: {}.",
                exact_name(&file)
            )
        };
        self.file.as_deref().map(said).unwrap_or_default()
    }
}

fn not_packed() -> Trouble {
    Trouble::new(
        "This command was built without the form.",
        "In a checkout run `cargo run --release -p siting-pack`; then ask again.",
    )
}

fn asked_port(written: Option<std::ffi::OsString>) -> Result<u16, Trouble> {
    let Some(written) = written else {
        return Ok(0);
    };
    let written = written.to_string_lossy();
    written.parse().map_err(|_| {
        let written = exact_name(&written);
        Trouble::new(
            format!("`{written}` is not a port."),
            "A port is a number from 1 to 65535, say 8420.",
        )
    })
}

fn write(page: &Page, file: PathBuf) -> Result<ExitCode, Trouble> {
    let name = file.display().to_string();
    let name = exact_name(&name);
    fs::write(&file, &page.html).map_err(|error| {
        Trouble::new(
            format!("`{name}` cannot be written: {error}."),
            "Name another place: --out FILE",
        )
    })?;
    let origin = page.origin();
    print::out(format!("{name}: open it with your browser.{origin}").as_str())
}

fn answer_for_ever(page: &Page, port: u16) -> Result<ExitCode, Trouble> {
    let taken = |error: io::Error| {
        Trouble::new(
            format!("Port {port} cannot be used: {error}."),
            "Without a number, --serve takes a free port.",
        )
    };
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port)).map_err(taken)?;
    let address = listener.local_addr().map_err(taken)?;
    let origin = page.origin();
    let said =
        format!("The form is at http://{address}/ for this machine only; Ctrl+C ends it.{origin}");
    print::out(said.as_str())?;
    for stream in listener.incoming().flatten() {
        // An error, such as a client that hangs up, ends only that request.
        let _ = answer(&page.html, stream);
    }
    Ok(ExitCode::SUCCESS)
}

fn answer(page: &[u8], mut stream: TcpStream) -> io::Result<()> {
    stream.set_read_timeout(Some(Duration::from_secs(2)))?;
    let path = asked_path(&mut stream)?;
    let (status, body): (_, &[u8]) = match path.as_deref() {
        Some("/" | "/index.html") => ("200 OK", page),
        _ => ("404 Not Found", b"Only the form is here: /\n"),
    };
    let kind = if status.starts_with("200") {
        "text/html"
    } else {
        "text/plain"
    };
    let head = format!(
        "HTTP/1.1 {status}\r\nContent-Type: {kind}; charset=utf-8\r\nContent-Length: {}\r\nConnection: close\r\n\
         X-Content-Type-Options: nosniff\r\nCache-Control: no-store\r\n\r\n",
        body.len()
    );
    stream.write_all(head.as_bytes())?;
    stream.write_all(body)
}

/// The path of a `GET` request without the part after `?`; `None` for any other request.
fn asked_path(stream: &mut TcpStream) -> io::Result<Option<String>> {
    let mut request = Vec::new();
    let mut piece = [0; 1024];
    while request.len() < REQUEST && !request.windows(4).any(|four| four == b"\r\n\r\n") {
        match stream.read(&mut piece)? {
            0 => break,
            read => request.extend(piece.iter().take(read)),
        }
    }
    let request = String::from_utf8_lossy(&request);
    let mut words = request.split_whitespace();
    let path = words
        .next()
        .filter(|method| *method == "GET")
        .and(words.next());
    Ok(path
        .and_then(|path| path.split('?').next())
        .map(str::to_owned))
}

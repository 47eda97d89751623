//! The form as the command hands it out.

use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Command, Stdio};

use crate::common::{golden, run, scratch, siting, status, stderr, stdout, trouble_is_told};

/// The page that was packed last, where cargo built the command or into the command itself.
fn packed() -> Option<Vec<u8>> {
    let built = Path::new(env!("CARGO_BIN_EXE_siting")).ancestors().nth(2);
    let last = built.map(|folder| folder.join("form/index.html"));
    let carried = Path::new(env!("CARGO_MANIFEST_DIR")).join("form/index.html");
    let mut files = last.into_iter().chain([carried]);
    files.find_map(|file| fs::read(file).ok())
}

/// Right after the packer the command hands out what was packed, as it is, and says which file that is.
#[test]
fn it_takes_the_page_that_was_packed_last() {
    let target = scratch("packed-last");
    for folder in ["release", "form"] {
        fs::create_dir_all(target.join(folder)).unwrap();
    }
    let command = target.join("release/siting");
    // A link, not a copy: a file that this process has just written cannot be run while another test starts a program.
    if command.exists() {
        fs::remove_file(&command).unwrap();
    }
    fs::hard_link(env!("CARGO_BIN_EXE_siting"), &command).unwrap();
    let page = target.join("form/index.html");
    fs::write(&page, "just packed").unwrap();
    let file = target.join("page.html");
    let written = Command::new(&command)
        .args(["form", "--out"])
        .arg(&file)
        .output()
        .unwrap();
    assert_eq!(status(&written), 0);
    assert!(stdout(&written).contains(page.to_str().unwrap()));
    assert_eq!(fs::read_to_string(&file).unwrap(), "just packed");
}

#[test]
fn it_tells_how_it_is_used() {
    golden("help-form.txt", &stdout(&run(&["help", "form"])));
}

#[test]
fn a_port_is_a_number() {
    if packed().is_some() {
        trouble_is_told(&[(&["form", "--serve", "here"], "`here` is not a port.")]);
    }
    trouble_is_told(&[(&["form", "--wide"], "There is no option `--wide` here.")]);
}

#[test]
fn it_writes_the_page_or_says_how_to_get_one() {
    let file = scratch("form").join("page.html");
    let output = run(&["form", "--out", file.to_str().unwrap()]);
    match packed() {
        Some(page) => assert_eq!(fs::read(&file).unwrap(), page),
        None => {
            assert_eq!(status(&output), 4);
            assert!(stderr(&output).contains("cargo run --release -p siting-pack"));
        }
    }
}

#[test]
fn it_serves_the_page_and_nothing_else() {
    let Some(page) = packed() else {
        // Without a page there is nothing to serve, and it says so.
        assert_eq!(status(&run(&["form", "--serve"])), 4);
        return;
    };
    let mut server = siting(&["form", "--serve"])
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut line = String::new();
    BufReader::new(server.stdout.take().unwrap())
        .read_line(&mut line)
        .unwrap();
    let address = line
        .split("http://")
        .nth(1)
        .and_then(|rest| rest.split('/').next())
        .unwrap()
        .to_owned();
    let get = |path: &str| {
        let mut stream = TcpStream::connect(&address).unwrap();
        stream
            .write_all(format!("GET {path} HTTP/1.1\r\nHost: x\r\n\r\n").as_bytes())
            .unwrap();
        let mut answer = Vec::new();
        stream.read_to_end(&mut answer).unwrap();
        answer
    };
    let answer = get("/");
    let elsewhere = get("/../Cargo.toml");
    server.kill().unwrap();
    server.wait().unwrap();
    assert!(answer.starts_with(b"HTTP/1.1 200 OK\r\n") && answer.ends_with(&page));
    assert!(elsewhere.starts_with(b"HTTP/1.1 404 "));
}

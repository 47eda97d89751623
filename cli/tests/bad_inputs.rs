//! Every bad input that is kept is refused with exit status 3 and a sentence with its place; none panics or hangs.
//!
//! `BLESS=1` writes down what is said now; read the difference before keeping it.

use std::fs;
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// A command that has not ended by then hangs.
const HANGS: Duration = Duration::from_secs(20);

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/bad-inputs")
}

/// The inputs, sorted; what a compressed one holds is written to a file beside the test's own.
fn inputs() -> Vec<(String, PathBuf)> {
    let mut all: Vec<(String, PathBuf)> = fs::read_dir(folder())
        .expect("the folder of bad inputs is there")
        .map(|entry| entry.expect("it can be listed").path())
        .filter(|path| path.is_file())
        .map(|path| {
            (
                path.file_name().unwrap().to_string_lossy().into_owned(),
                path,
            )
        })
        .filter(|(name, _)| name.starts_with("plan-") || name.starts_with("rules-"))
        .map(|(name, path)| match name.strip_suffix(".gz") {
            Some(plain) => (plain.to_owned(), unpacked(plain, &path)),
            None => (name, path),
        })
        .collect();
    all.sort();
    all
}

fn unpacked(name: &str, path: &Path) -> PathBuf {
    let mut bytes = Vec::new();
    let packed = fs::File::open(path).expect("it can be opened");
    flate2::read::GzDecoder::new(packed)
        .read_to_end(&mut bytes)
        .expect("it can be unpacked");
    let plain = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    fs::write(&plain, bytes).expect("it can be written");
    plain
}

struct Said {
    status: Option<i32>,
    text: String,
    took: Duration,
}

fn run(name: &str, path: &Path) -> Said {
    let folder = folder();
    let (plan, rules) = match name.starts_with("plan-") {
        true => (path.to_owned(), folder.join("good-rules.yaml")),
        false => (folder.join("good-plan.yaml"), path.to_owned()),
    };
    let start = Instant::now();
    let mut child = Command::new(env!("CARGO_BIN_EXE_siting"))
        .arg("check")
        .arg(plan)
        .arg("--rules")
        .arg(rules)
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the command starts");
    while child.try_wait().expect("it can be asked").is_none() {
        if start.elapsed() > HANGS {
            let _ = child.kill();
            return Said {
                status: None,
                text: "it hangs".to_owned(),
                took: start.elapsed(),
            };
        }
        std::thread::sleep(Duration::from_millis(2));
    }
    let took = start.elapsed();
    let output = child.wait_with_output().expect("it has ended");
    let text = String::from_utf8_lossy(&output.stdout).into_owned()
        + &String::from_utf8_lossy(&output.stderr);
    Said {
        status: output.status.code(),
        text,
        took,
    }
}

/// What was said, without the places of this machine.
fn plain(text: &str, path: &Path) -> String {
    let folder = folder();
    text.replace(&path.display().to_string(), "INPUT")
        .replace(&format!("{}/", folder.display()), "")
        .replace(&folder.display().to_string(), "")
}

#[test]
fn every_bad_input_is_refused_in_plain_words() {
    let expected = folder().join("expected");
    let inputs = inputs();
    assert!(inputs.len() >= 60, "only {} bad inputs", inputs.len());
    let mut wrong = Vec::new();
    let mut slowest = (Duration::ZERO, String::new());
    for (name, path) in &inputs {
        let said = run(name, path);
        let text = plain(&said.text, path);
        slowest = slowest.max((said.took, name.clone()));
        if said.status != Some(3) {
            wrong.push(format!(
                "{name}: exit status {:?}, said:\n{text}",
                said.status
            ));
        }
        if text.contains("panicked") {
            wrong.push(format!("{name}: it panicked:\n{text}"));
        }
        let kept = expected.join(format!("{name}.txt"));
        if std::env::var_os("BLESS").is_some() {
            fs::create_dir_all(&expected).unwrap();
            fs::File::create(&kept)
                .unwrap()
                .write_all(text.as_bytes())
                .unwrap();
        }
        match fs::read_to_string(&kept) {
            Ok(kept) if kept == text => {}
            Ok(kept) => wrong.push(format!(
                "{name}: it said before:\n{kept}\nit says now:\n{text}"
            )),
            Err(_) => wrong.push(format!("{name}: nobody has read yet what it says:\n{text}")),
        }
    }
    println!(
        "{} bad inputs; the slowest, {}, took {:?}",
        inputs.len(),
        slowest.1,
        slowest.0
    );
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

#[test]
fn the_good_ones_beside_them_are_read() {
    let folder = folder();
    let output = Command::new(env!("CARGO_BIN_EXE_siting"))
        .arg("check")
        .arg(folder.join("good-plan.yaml"))
        .arg("--rules")
        .arg(folder.join("good-rules.yaml"))
        .output()
        .expect("the command starts");
    assert!(
        matches!(output.status.code(), Some(0..=2)),
        "status {:?}\n{}{}",
        output.status.code(),
        String::from_utf8_lossy(&output.stdout),
        String::from_utf8_lossy(&output.stderr),
    );
}

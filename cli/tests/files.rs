//! What is no file is refused at once, whatever argument names it; what is too long is refused unread.

use std::fs::{self, File};
use std::io::Write;
use std::os::unix::net::UnixListener;
use std::process::{Command, Output, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use crate::common::*;

/// A command that has not ended by then waits for something that never comes.
const HANGS: Duration = Duration::from_secs(20);

/// Runs a command that must end by itself.
fn ends(command: &mut Command) -> Output {
    let mut child = command
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let began = Instant::now();
    while child.try_wait().unwrap().is_none() {
        if began.elapsed() > HANGS {
            child.kill().unwrap();
            panic!("{command:?} hangs");
        }
        sleep(Duration::from_millis(5));
    }
    child.wait_with_output().unwrap()
}

/// Every command line in which a file is read, with `it` in the place of the file.
fn lines(it: &str) -> Vec<Vec<&str>> {
    vec![
        vec!["check", it, "--rules", RULES],
        vec!["check", it, "--rules", RULES, "--format", "json"],
        vec!["check", PLAN, "--rules", it],
        vec!["steps", it, "--rules", RULES, "--start", "2026-03-02"],
        vec!["steps", PLAN, "--rules", it, "--start", "2026-03-02"],
        vec!["draw", it],
        vec!["draw", PLAN, "--rules", it],
        vec!["rules", "check", it],
        vec!["rules", "read", it],
        vec!["rules", "try", it],
        vec!["rules", "try", RULES, "--cases", it],
        vec!["rules", "compare", it, RULES],
        vec!["rules", "compare", RULES, it],
        vec!["rules", "compare", RULES, RULES, it],
    ]
}

fn made_by(program: &str, path: &str) {
    let made = Command::new(program).arg(path).status().unwrap();
    assert!(made.success(), "{program} {path}");
}

#[test]
fn what_is_no_file_is_refused_at_once() {
    let folder = scratch("no-files");
    let name = |name: &str| folder.join(name).to_str().unwrap().to_owned();
    let (pipe, socket, inside) = (name("pipe"), name("socket"), name("inside"));
    for old in [&pipe, &socket] {
        let _ = fs::remove_file(old);
    }
    made_by("mkfifo", &pipe);
    // Its name may be too long for a socket: so it is made beside, and named from there.
    let listener = {
        let short = std::env::temp_dir().join(format!("siting-{}", std::process::id()));
        let listener = UnixListener::bind(&short).unwrap();
        fs::rename(&short, &socket).unwrap();
        listener
    };
    fs::create_dir_all(&inside).unwrap();
    for (it, what) in [
        (pipe.as_str(), "pipe"),
        (&socket, "socket"),
        (&inside, "folder"),
        ("/dev/zero", "device"),
        ("/dev/tty", "device"),
    ] {
        for line in lines(it) {
            let output = ends(&mut siting(&line));
            assert_eq!(status(&output), 4, "{line:?}: {}", stderr(&output));
            let said = format!("`{it}` is a {what}, not a file.\n");
            assert!(
                stderr(&output).starts_with(&said),
                "{line:?}: {}",
                stderr(&output)
            );
        }
    }
    drop(listener);
}

#[test]
fn what_is_no_file_is_not_read_beside_a_file_either() {
    let folder = scratch("no-files-beside");
    for pipe in ["cases.yaml", "base.yaml"] {
        let path = folder.join(pipe);
        let _ = fs::remove_file(&path);
        made_by("mkfifo", path.to_str().unwrap());
    }
    let rules = write(
        &folder,
        "rules.yaml",
        &depth_rules("small", "builds-on: [base]\n"),
    );
    for line in [
        vec!["rules", "check", &rules],
        vec!["rules", "try", &rules],
        vec!["check", PLAN, "--rules", &rules],
    ] {
        let output = ends(&mut siting(&line));
        assert_eq!(status(&output), 3, "{line:?}: {}", stderr(&output));
        assert!(
            stderr(&output).contains("`base`"),
            "{line:?}: {}",
            stderr(&output)
        );
    }
}

#[test]
fn what_is_too_long_is_refused_unread() {
    let folder = scratch("too-long");
    let path = folder.join("long.yaml");
    // Nothing is written: a thousand gigabytes of which the file system keeps only the length.
    File::create(&path).unwrap().set_len(1 << 40).unwrap();
    for line in lines(path.to_str().unwrap()) {
        let output = ends(&mut siting(&line));
        assert_eq!(status(&output), 3, "{line:?}: {}", stderr(&output));
        let said = stdout(&output) + &stderr(&output);
        assert!(
            said.contains("The file is longer than 2000000 bytes, and is not read."),
            "{line:?}: {said}"
        );
    }
}

#[test]
fn a_file_of_just_the_greatest_length_is_read() {
    let folder = scratch("greatest-length");
    let rules = depth_rules("small", "");
    let filled = |bytes: usize| format!("{rules}#{}\n", "x".repeat(bytes - rules.len() - 2));
    for (bytes, expected) in [(2_000_000, 0), (2_000_001, 3)] {
        let path = write(&folder, "rules.yaml", &filled(bytes));
        assert_eq!(
            status(&run(&["rules", "check", &path])),
            expected,
            "{bytes}"
        );
    }
}

#[test]
fn standard_input_is_read_up_to_the_limit_and_no_further() {
    let endless = File::open("/dev/zero").unwrap();
    let output = ends(siting(&["check", "-", "--rules", RULES]).stdin(endless));
    assert_eq!(status(&output), 3);
    assert!(
        stderr(&output).contains("longer than 2000000 bytes"),
        "{}",
        stderr(&output)
    );
    let folder = File::open(env!("CARGO_MANIFEST_DIR")).unwrap();
    let output = ends(siting(&["check", "-", "--rules", RULES]).stdin(folder));
    assert_eq!(status(&output), 4);
    assert!(
        stderr(&output).contains("`standard input` is a folder"),
        "{}",
        stderr(&output)
    );
    let mut child = siting(&["check", "-", "--rules", RULES])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let plan = fs::read(PLAN).unwrap();
    child.stdin.take().unwrap().write_all(&plan).unwrap();
    assert_eq!(child.wait_with_output().unwrap().status.code(), Some(1));
}

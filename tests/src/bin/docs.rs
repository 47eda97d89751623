//! Writes the generated pages under `docs/`: `docs write`, or `docs check`, which only says which of them are out of
//! date.

use std::process::ExitCode;
use std::{fs, io};

use outside_checks::pages::{pages, root};

fn main() -> ExitCode {
    let writing = match std::env::args().nth(1).as_deref() {
        Some("write") => true,
        Some("check") => false,
        _ => {
            eprintln!("Usage: docs write|check");
            return ExitCode::from(2);
        }
    };
    match out_of_date(writing) {
        Ok(0) => ExitCode::SUCCESS,
        Ok(_) if writing => ExitCode::SUCCESS,
        Ok(_) => ExitCode::FAILURE,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

fn out_of_date(write: bool) -> io::Result<usize> {
    let mut stale = 0;
    for (path, text) in pages()? {
        let place = root().join(path);
        if fs::read_to_string(&place).is_ok_and(|old| old == text) {
            continue;
        }
        stale += 1;
        if write {
            fs::write(&place, text)?;
            println!("{path}: written");
        } else {
            println!("{path}: out of date");
        }
    }
    Ok(stale)
}

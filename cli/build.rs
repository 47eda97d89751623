//! Takes the form into the command, where it was packed before.

use std::path::Path;

fn main() {
    println!("cargo::rerun-if-changed=form");
    println!("cargo::rustc-check-cfg=cfg(with_form)");
    if Path::new("form/index.html").is_file() {
        println!("cargo::rustc-cfg=with_form");
    }
}

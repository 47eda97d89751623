//! Files that are opened and saved.

use std::cell::RefCell;
use std::rc::Rc;

use rules_core::text::MAX_BYTES;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, File, HtmlInputElement};

use crate::browser::redraw;
use crate::compared::Opened;
use crate::draft::with_draft;
use crate::words::fill;

/// Reads the files of a field, one after the other has come; then does something with all of them and shows the page.
pub fn open_files(field: &Element, then: impl Fn(Vec<Opened>) + 'static) {
    let Some(field) = field.dyn_ref::<HtmlInputElement>() else {
        return;
    };
    let files = field.files();
    let files: Vec<File> = files
        .iter()
        .flat_map(|all| (0..all.length()).filter_map(|at| all.get(at)))
        .collect();
    let (small, large): (Vec<File>, Vec<File>) = files
        .into_iter()
        .partition(|file| file.size() <= MAX_BYTES as f64);
    if let Some(file) = large.first() {
        let note = fill("open.large", &[("name", &file.name())]);
        with_draft(|draft| draft.note = Some(note));
    }
    let wanted = small.len();
    let opened: Rc<RefCell<Vec<Opened>>> = Rc::default();
    let then = Rc::new(then);
    for file in small {
        let (opened, then, name) = (Rc::clone(&opened), Rc::clone(&then), file.name());
        let came = Closure::once(move |text: JsValue| {
            let text = text.as_string().unwrap_or_default();
            opened.borrow_mut().push(Opened { name, text });
            if opened.borrow().len() == wanted {
                let mut all = opened.take();
                all.sort_by(|one, other| one.name.cmp(&other.name));
                then(all);
                redraw();
            }
        });
        // What comes of reading is told to the closure; a file that went meanwhile opens nothing.
        let _ = file.text().then(&came);
        came.forget();
    }
    field.set_value("");
}

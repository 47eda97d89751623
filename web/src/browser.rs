//! Calls to the browser: listening to events, doing something later, handing out a file.

use js_sys::{Array, Function};
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::convert::FromWasmAbi;
use web_sys::{Blob, BlobPropertyBag, Event, EventTarget, HtmlAnchorElement, Url};

use crate::view::keyed::document;

/// Calls something at each event of this name, as long as the page stands. It may be called again before it returns.
pub fn listen<E: FromWasmAbi + 'static>(
    target: &EventTarget,
    name: &str,
    doing: impl Fn(E) + 'static,
) {
    // Only a name that is no text would be refused.
    let _ = target.add_event_listener_with_callback(name, &heard(doing));
}

/// The same for the events of all that is within the target, also those, such as scrolling, that do not rise to it.
pub fn listen_within<E: FromWasmAbi + 'static>(
    target: &EventTarget,
    name: &str,
    doing: impl Fn(E) + 'static,
) {
    // As above.
    let _ = target.add_event_listener_with_callback_and_bool(name, &heard(doing), true);
}

fn heard<E: FromWasmAbi + 'static>(doing: impl Fn(E) + 'static) -> Function {
    Closure::<dyn Fn(E)>::new(doing)
        .into_js_value()
        .unchecked_into()
}

/// Something that the browser calls whenever it is asked to.
pub fn callback(doing: impl Fn() + 'static) -> Function {
    Closure::<dyn Fn()>::new(doing)
        .into_js_value()
        .unchecked_into()
}

/// Tells whoever listens that something has happened.
pub fn tell(name: &str) {
    if let (Some(page), Ok(event)) = (document(), Event::new(name)) {
        // Nobody can call it off.
        let _ = page.dispatch_event(&event);
    }
}

/// Has the page shown as it now is.
pub fn redraw() {
    tell(LOOK);
}

/// What is told when something has changed.
pub const LOOK: &str = "look";

/// What a file holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Rules, cases or a plan.
    Yaml,
    /// A page to print.
    Page,
}

impl Kind {
    fn name(self) -> &'static str {
        match self {
            Self::Yaml => "application/yaml",
            Self::Page => "text/html",
        }
    }
}

/// Hands a file to the person, as a download.
pub fn hand_out(name: &str, text: &str, kind: Kind) {
    let how = BlobPropertyBag::new();
    how.set_type(kind.name());
    let parts = Array::of1(&text.into());
    let blob = Blob::new_with_str_sequence_and_options(&parts, &how);
    let address = blob.and_then(|blob| Url::create_object_url_with_blob(&blob));
    let link = document().and_then(|page| page.create_element("a").ok());
    let link = link.and_then(|link| link.dyn_into::<HtmlAnchorElement>().ok());
    if let (Ok(address), Some(link)) = (address, link) {
        link.set_href(&address);
        link.set_download(name);
        link.click();
        forget_later(address);
    }
}

/// The browser keeps what is downloaded until it is told not to; by then it has it.
fn forget_later(address: String) {
    let forget = Closure::once_into_js(move || {
        // An address that is forgotten already is no harm.
        let _ = Url::revoke_object_url(&address);
    });
    if let Some(window) = web_sys::window() {
        let later = forget.unchecked_ref();
        let _ = window.set_timeout_with_callback_and_timeout_and_arguments_0(later, 10_000);
    }
}

/// Calls something once the browser has nothing else to do.
pub fn when_idle(doing: &Function) {
    let Some(window) = web_sys::window() else {
        return;
    };
    if window.request_idle_callback(doing).is_err() {
        // Some browsers have no such call.
        let _ = window.set_timeout_with_callback_and_timeout_and_arguments_0(doing, 50);
    }
}

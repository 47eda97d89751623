//! The sheet for the authority: the drawing at a true scale, and the report below it.

use std::cell::{Cell, RefCell};

use rules_core::drawing::{Drawing, Options};
use wasm_bindgen::JsCast;
use web_sys::CssStyleSheet;

use super::boxes::open_box;
use super::keyed::{El, button, document, el, show};
use super::sheet_report;
use crate::draw::drawn;
use crate::held::with;
use crate::judged::{rules_in_words, with_judged};
use crate::looks::with_looks;
use crate::words::{fill, t};

/// The papers, each with its sides in millimetres.
const PAPERS: [(&str, [f64; 2]); 3] = [
    ("A4", [210.0, 297.0]),
    ("A3", [297.0, 420.0]),
    ("Letter", [215.9, 279.4]),
];
/// The scales, the largest first.
const SCALES: [(u32, &str); 4] = [
    (100, "1:100"),
    (200, "1:200"),
    (240, "1 in = 20 ft"),
    (500, "1:500"),
];
/// The margin of a page, and the height of its heading, in millimetres.
const MARGIN: f64 = 12.0;
const HEADING: f64 = 30.0;

/// How the sheet is printed.
#[derive(Debug, Clone)]
pub struct Print {
    /// The name of the paper.
    pub paper: String,
    /// One to this.
    pub scale: u32,
    /// Whether its long side is level.
    pub lying: bool,
}

impl Default for Print {
    fn default() -> Self {
        Self {
            paper: "A4".to_owned(),
            scale: 200,
            lying: false,
        }
    }
}

thread_local! {
    static PRINT: RefCell<Print> = RefCell::default();
    /// Where the rule for the size of the page stands in the style.
    static PAGE_RULE: Cell<Option<u32>> = const { Cell::new(None) };
}

/// Does something with how the sheet is printed.
pub fn with_print<T>(doing: impl FnOnce(&mut Print) -> T) -> T {
    PRINT.with_borrow_mut(doing)
}

impl Print {
    /// What can be printed on, in millimetres.
    fn room(&self) -> [f64; 2] {
        let paper = PAPERS.iter().find(|(name, _)| *name == self.paper);
        let [short, long] = paper.map_or(PAPERS[0].1, |(_, sides)| *sides);
        let sides = if self.lying {
            [long, short]
        } else {
            [short, long]
        };
        sides.map(|side| side - 2.0 * MARGIN)
    }

    /// The same without the heading, which stands above the drawing on the same page.
    fn sheet_room(&self) -> [f64; 2] {
        let [width, height] = self.room();
        [width, height - HEADING]
    }

    fn scale_said(&self) -> &'static str {
        let scale = SCALES.iter().find(|(scale, _)| *scale == self.scale);
        scale.map_or("", |(_, said)| said)
    }

    fn way_said(&self) -> String {
        t(if self.lying {
            "print.lying-down"
        } else {
            "print.upright"
        })
    }

    /// The drawing at this scale, as large as the paper given, or as it needs.
    fn drawing(&self, paper: Option<[f64; 2]>) -> Option<Drawing> {
        drawn(&Options {
            all_distances: true,
            scale: Some(self.scale),
            unit: Some(with_looks(|looks| looks.unit.clone())),
            paper,
            ..Options::default()
        })
    }

    /// Whether ground of this size has room on the paper.
    fn fits(&self, [width, height]: [f64; 2]) -> bool {
        let [across, down] = self.sheet_room();
        let scale = f64::from(self.scale);
        width / scale <= across && height / scale <= down
    }

    /// The largest scale at which it has room, on the paper as it lies or the other way.
    fn that_fits(&self, ground: [f64; 2]) -> Option<Self> {
        let ways = [self.lying, !self.lying];
        let all = SCALES
            .iter()
            .flat_map(|(scale, _)| ways.map(|lying| (*scale, lying)));
        let all = all.map(|(scale, lying)| Self {
            scale,
            lying,
            ..self.clone()
        });
        { all }.find(|print| print.fits(ground))
    }

    /// Whether all that is near the lot is on the sheet, and if not, how it would be.
    fn fits_said(&self, ground: [f64; 2]) -> String {
        if self.fits(ground) {
            return t("print.fits");
        }
        let found = self.that_fits(ground).map(|print| {
            let with = [("scale", print.scale_said()), ("way", &print.way_said())];
            format!(" {}", fill("print.would-fit", &with))
        });
        t("print.cut") + &found.unwrap_or_default()
    }
}

/// Asks for the paper and the scale, and shows what will be printed.
pub fn show_print_box() {
    let print = with_print(|print| print.clone());
    let drawing = print.drawing(Some(print.sheet_room()));
    let whole = print.drawing(None).map(|drawing| {
        let [_, _, width, height] = drawing.view;
        [width, height]
    });
    let said = whole.map_or_else(|| t("print.no-drawing"), |ground| print.fits_said(ground));
    let is_cut = whole.is_some_and(|ground| !print.fits(ground));
    let preview = drawing.map(|drawing| preview(&drawing.svg()));
    let fits = el("p")
        .class(if is_cut { "wrong" } else { "hint" })
        .id("print-fits")
        .set("role", "status");
    let now = button("print-now").id("print-now").with(t("print.now"));
    let mut content = vec![el("h2").id("box-head").with(t("print.head")), picks(&print)];
    content.extend(preview);
    content.extend([
        fits.with(said),
        el("p").class("hint").with(t("print.true")),
        now.class("add"),
    ]);
    open_box(content);
    show_print();
}

fn preview(svg: &str) -> El {
    let address = js_sys::encode_uri_component(svg);
    el("img")
        .class("preview")
        .set("alt", t("print.preview"))
        .set("src", format!("data:image/svg+xml,{address}"))
}

fn picks(print: &Print) -> El {
    let papers = PAPERS.map(|(name, _)| (name.to_owned(), name.to_owned()));
    let ways = [("false", "print.upright"), ("true", "print.lying-down")];
    let ways = ways.map(|(value, key)| (value.to_owned(), t(key)));
    let scales = SCALES.map(|(scale, said)| (scale.to_string(), said.to_owned()));
    el("div")
        .class("pair")
        .with(pick("paper", &papers, &print.paper))
        .with(pick("lying", &ways, &print.lying.to_string()))
        .with(pick("scale", &scales, &print.scale.to_string()))
}

fn pick(key: &'static str, options: &[(String, String)], chosen: &str) -> El {
    let id = format!("print-{key}");
    let option = |(value, said): &(String, String)| {
        el("option")
            .set("value", value.clone())
            .is("selected", value == chosen)
            .with(said)
    };
    let label = el("label").class("ask").set("for", id.clone());
    let select = el("select")
        .id(id)
        .does("print-picked")
        .set("data-key", key);
    el("div")
        .class("question")
        .with(label.with(t(&format!("print.{key}"))))
        .with(select.each(options.iter().map(option)))
}

/// Lays the sheet out, where only a printer sees it.
pub fn show_print() {
    let print = with_print(|print| print.clone());
    size_page(print.room());
    let drawing = print.drawing(Some(print.sheet_room()));
    let report = with_judged(|judged| {
        let report = judged.shown().map(|good| &good.report);
        sheet_report::of(report).id("print-report")
    });
    let sheet = el("div")
        .with(heading(&print))
        .with(drawing.map(drawn_whole))
        .with(report);
    show("print", sheet);
}

fn drawn_whole(drawing: Drawing) -> El {
    let layers = drawing.layers.into_iter().map(El::from);
    El::from(drawing.open).each(layers).id("print-drawing")
}

fn heading(print: &Print) -> El {
    let title = with(|session| {
        let text = |key| Some(session.plan().get(key)?.text()?.to_owned());
        text("title").or_else(|| text("plan")).unwrap_or_default()
    });
    let Print { paper, .. } = print;
    let scale = format!(
        "{} · {paper} · {}",
        print.scale_said(),
        t("print.check-scale")
    );
    el("header")
        .with(el("h1").with(title))
        .with(el("p").with(rules_in_words()))
        .with(el("p").with(scale))
        .with(el("p").with(t("print.as-drawn")))
}

/// The page is as large as the paper. The policy lets no style in but the page's own, so that the rule is put there.
fn size_page(room: [f64; 2]) {
    let sheet = document().and_then(|page| page.style_sheets().item(0));
    let Some(sheet) = sheet.and_then(|sheet| sheet.dyn_into::<CssStyleSheet>().ok()) else {
        return;
    };
    if let Some(rule) = PAGE_RULE.take() {
        // It is the last one, put there below.
        let _ = sheet.delete_rule(rule);
    }
    let [width, height] = room.map(|side| side + 2.0 * MARGIN);
    let rule = format!("@page {{ size: {width}mm {height}mm; margin: {MARGIN}mm; }}");
    let last = sheet.css_rules().map_or(0, |rules| rules.length());
    PAGE_RULE.set(sheet.insert_rule_with_index(&rule, last).ok());
}

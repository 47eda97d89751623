//! What stands on a printed page: the straight stretches of its lines, in millimetres.

use lopdf::content::Content;
use lopdf::{Document, Object};

use crate::Trouble;

/// A straight piece of a line on paper.
#[derive(Debug, Clone, Copy)]
pub struct Stretch {
    /// How far it goes to the right, in millimetres.
    pub across: f64,
    /// How far it goes up, in millimetres.
    pub up: f64,
}

/// A turned, shifted and scaled plane, as PDF writes it.
type Matrix = [f64; 6];
const SAME: Matrix = [1.0, 0.0, 0.0, 1.0, 0.0, 0.0];
/// A point of PDF is 1/72 in (ISO 32000-1, 8.3.2.3: default user space).
const MM_A_POINT: f64 = 25.4 / 72.0;

/// The stretches on the first page of a PDF.
pub fn stretches(pdf: &[u8]) -> Result<Vec<Stretch>, Trouble> {
    let document = Document::load_mem(pdf)?;
    let page = document.page_iter().next().ok_or("the PDF has no page")?;
    let content = Content::decode(&document.get_page_content(page))?;
    let mut pen = Pen {
        matrix: SAME,
        kept: Vec::new(),
        from: (0.0, 0.0),
        first: (0.0, 0.0),
        found: Vec::new(),
    };
    for operation in &content.operations {
        let figures: Vec<f64> = operation.operands.iter().filter_map(figure).collect();
        pen.take(&operation.operator, &figures);
    }
    Ok(pen.found)
}

fn figure(object: &Object) -> Option<f64> {
    object.as_float().ok().map(f64::from)
}

struct Pen {
    matrix: Matrix,
    kept: Vec<Matrix>,
    from: (f64, f64),
    first: (f64, f64),
    found: Vec<Stretch>,
}

impl Pen {
    /// Follows one operator: those of the state, and those that make paths (ISO 32000-1, 8.4.4 and 8.5.2).
    fn take(&mut self, operator: &str, figures: &[f64]) {
        match (operator, figures) {
            ("q", _) => self.kept.push(self.matrix),
            ("Q", _) => self.matrix = self.kept.pop().unwrap_or(SAME),
            ("cm", &[a, b, c, d, e, f]) => self.matrix = times([a, b, c, d, e, f], self.matrix),
            ("m", &[x, y]) => {
                self.from = (x, y);
                self.first = (x, y);
            }
            ("l", &[x, y]) => self.line((x, y)),
            ("h" | "s" | "b" | "b*", _) => self.line(self.first),
            ("re", &[x, y, width, height]) => self.rectangle((x, y), width, height),
            _ => {}
        }
    }

    fn rectangle(&mut self, (x, y): (f64, f64), width: f64, height: f64) {
        self.from = (x, y);
        for corner in [
            (x + width, y),
            (x + width, y + height),
            (x, y + height),
            (x, y),
        ] {
            self.line(corner);
        }
    }

    fn line(&mut self, to: (f64, f64)) {
        let (from, end) = (place(self.matrix, self.from), place(self.matrix, to));
        self.found.push(Stretch {
            across: (end.0 - from.0).abs() * MM_A_POINT,
            up: (end.1 - from.1).abs() * MM_A_POINT,
        });
        self.from = to;
    }
}

fn place([a, b, c, d, e, f]: Matrix, (x, y): (f64, f64)) -> (f64, f64) {
    (a * x + c * y + e, b * x + d * y + f)
}

fn times(one: Matrix, other: Matrix) -> Matrix {
    let [a, b, c, d, e, f] = one;
    let (x, y) = place(other, (e, f));
    let [p, q, r, s, ..] = other;
    [
        a * p + b * r,
        a * q + b * s,
        c * p + d * r,
        c * q + d * s,
        x,
        y,
    ]
}

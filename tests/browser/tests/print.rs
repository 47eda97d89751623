//! The sheet on paper is true to its scale.

use browser_checks::{Form, Outcome, Stretch, stretches};
use serde_json::json;

/// A lot of 10 m by 17.3 m: no other line on the sheet is as long.
const LOT: [f64; 2] = [10.0, 17.3];

fn printed(scale: &str, paper: &str) -> Result<Vec<Stretch>, browser_checks::Trouble> {
    let form = Form::with_lot("10 m", "17.3 m")?;
    form.click("#menu-print")?;
    form.choose("#print-paper", paper)?;
    form.choose("#print-scale", scale)?;
    form.see("#box .preview")?;
    form.run("document.getElementById('box').close();", json!([]))?;
    stretches(&form.print()?)
}

/// Whether a stretch of that length, level or upright, is among them, to half a per cent.
fn has(found: &[Stretch], length: f64, level: bool) -> bool {
    found.iter().any(|stretch| {
        let (along, across) = if level {
            (stretch.across, stretch.up)
        } else {
            (stretch.up, stretch.across)
        };
        (along / length - 1.0).abs() < 0.005 && across < 0.1
    })
}

fn is_true_to_scale(scale: &str, one_to: f64, paper: &str) -> Outcome {
    let found = printed(scale, paper)?;
    let on_paper = LOT.map(|metres| metres * 1000.0 / one_to);
    assert!(
        has(&found, on_paper[0], true),
        "{scale}, {paper}: no level line of {} mm among {} lines",
        on_paper[0],
        found.len()
    );
    assert!(
        has(&found, on_paper[1], false),
        "{scale}, {paper}: no upright line of {} mm",
        on_paper[1]
    );
    Ok(())
}

#[test]
fn ten_metres_are_a_hundred_millimetres_at_one_to_a_hundred() -> Outcome {
    is_true_to_scale("100", 100.0, "A4")
}

#[test]
fn ten_metres_are_fifty_millimetres_at_one_to_two_hundred() -> Outcome {
    is_true_to_scale("200", 200.0, "A3")
}

/// One inch for twenty feet of twelve inches is 1 to 240.
#[test]
fn an_inch_is_twenty_feet() -> Outcome {
    is_true_to_scale("240", 240.0, "Letter")
}

//! How fast the form is in a real browser: `cargo run --release -p browser-checks --example form_speed`, after packing it.
//!
//! It prints the lines that stand in `docs/performance.md`. It asserts nothing: how fast a machine is, no test can say.

use browser_checks::{Form, Trouble, page_file};
use serde_json::json;

fn main() -> Result<(), Trouble> {
    let size = std::fs::metadata(page_file()?)?.len();
    println!("| the page | {:.2} MB |", size as f64 / 1e6);
    let form = Form::with_example()?;
    let (mut paints, mut verdicts) = (Vec::new(), Vec::new());
    for _ in 0..9 {
        form.reload()?;
        form.ready()?;
        let times = form.run(
            "return [performance.getEntriesByName('first-contentful-paint')[0].startTime, performance.getEntriesByName('verdict shown')[0].startTime];",
            json!([]),
        )?;
        let [paint, verdict] = [0, 1].map(|at| times[at].as_f64().unwrap_or(f64::NAN));
        paints.push(paint);
        verdicts.push(verdict - paint);
    }
    println!(
        "| first paint, median of 9 | {:.0} ms |",
        share(&mut paints, 0.5)
    );
    println!(
        "| from there to the verdict, median of 9 | {:.0} ms |",
        share(&mut verdicts, 0.5)
    );
    let mut steps = drag_steps(&form)?;
    for (name, of) in [("median", 0.5), ("95th percentile", 0.95)] {
        println!(
            "| a drag step (change, measure, check, redraw), {name} of {} | {:.1} ms |",
            steps.len(),
            share(&mut steps, of)
        );
    }
    Ok(())
}

/// Drags the example's pool to and fro; gives how long each step took, in milliseconds.
fn drag_steps(form: &Form) -> Result<Vec<f64>, Trouble> {
    for _ in 0..20 {
        let (x, y) = form.middle("pool")?;
        form.drag((x, y), (x + 40, y + 60))?;
        form.drag((x + 40, y + 60), (x, y))?;
    }
    let steps = form.run(
        "return performance.getEntriesByName('drag step').map((step) => step.duration);",
        json!([]),
    )?;
    let steps = steps.as_array().cloned().unwrap_or_default();
    Ok(steps.iter().filter_map(|step| step.as_f64()).collect())
}

fn share(figures: &mut [f64], of: f64) -> f64 {
    figures.sort_by(f64::total_cmp);
    let last = figures.len().saturating_sub(1);
    figures
        .get((last as f64 * of).round() as usize)
        .copied()
        .unwrap_or(f64::NAN)
}

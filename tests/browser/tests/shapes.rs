//! Every shape that a pool can have is chosen, drawn, judged and dragged.

use browser_checks::{Form, Outcome};
use serde_json::json;

#[test]
fn each_shape_is_drawn_judged_and_dragged() -> Outcome {
    let form = Form::with_example()?;
    form.click("#head-pool")?;
    for shape in [
        "kidney",
        "l-shape",
        "circle",
        "oval",
        "rounded-rectangle",
        "rectangle",
    ] {
        form.choose("#at-pool_water-shape", shape)?;
        form.until(
            shape,
            "return document.querySelector('#at-pool_water-shape')?.value === arguments[0] && !document.querySelector('.slip');",
            &json!([shape]),
        )?;
        let drawn = |form: &Form| {
            form.kept()
                .map(|kept| kept["plan"]["pool"]["water"][shape].clone())
        };
        let before = drawn(&form)?;
        assert!(before.is_object(), "{shape}: {before}");
        assert!(
            ["pass", "fail", "open", "marginal", "unknown"]
                .contains(&form.outcome("rear-line")?.as_str())
        );
        let path = form.run(
            "return document.querySelector('#drawing [data-path=pool] path, #drawing path[data-path=pool]')?.getAttribute('d') ?? '';",
            json!([]),
        )?;
        let round = !["l-shape", "rectangle"].contains(&shape);
        let arcs = path.as_str().is_some_and(|d| d.contains('A'));
        assert_eq!(arcs, round, "{shape}: {path}");
        let (x, y) = form.middle("pool")?;
        form.drag((x, y), (x + 12, y + 9))?;
        assert_ne!(drawn(&form)?, before, "{shape}");
    }
    Ok(())
}

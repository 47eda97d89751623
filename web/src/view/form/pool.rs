//! The pool: where it is, how large, and how its other edges lie.

use rules_core::asked::AskedOutline;
use rules_core::text::Node;

use super::Form;
use super::outline::shape_of;
use crate::plan::{name_of, pools};
use crate::view::keyed::{El, button, el};
use crate::words::{heading, t};

/// The ways of an outline that is not drawn by itself.
const NOT_DRAWN: [&str; 5] = ["none", "absent", "same-as", "outward", "inward"];

impl Form<'_> {
    /// The questions about the pools, or the way to the first.
    pub fn pools(&self) -> Vec<El> {
        let all = pools(self.plan);
        if all.is_empty() {
            let begin = button("pool-begun")
                .class("add")
                .id("pool-begin")
                .with(t("pool.begin"));
            return vec![el("p").with(t("pool.none")), begin];
        }
        let several = all.len() > 1;
        let another = button("pool-begun").class("plain").id("pool-another");
        let pool = |(path, pool): (String, &Node)| {
            let head = several.then(|| el("h3").with(heading(&name_of(pool))));
            el("div").with(head).with(self.pool(&path, pool))
        };
        let pools = all.into_iter().map(pool);
        pools.chain([another.with(t("pool.another"))]).collect()
    }

    /// The other edges of something drawn, by how far they lie outside it. Those on which no open rule depends are
    /// folded away.
    pub fn edges<'o>(
        &self,
        path: &str,
        outlines: impl Iterator<Item = &'o AskedOutline>,
        from: (&str, &str),
    ) -> Vec<El> {
        let below = |outline: &AskedOutline| format!("{path}.{}", outline.id);
        let (now, later): (Vec<_>, Vec<_>) =
            outlines.partition(|outline| self.is_wanted(&below(outline), &outline.why));
        let edge = |outline: &AskedOutline| self.outward(&below(outline), outline, from);
        let later = later.into_iter().map(edge).collect();
        now.into_iter()
            .map(edge)
            .chain(self.folded_away(path, "field.later-edges", later))
            .collect()
    }

    fn pool(&self, path: &str, pool: &Node) -> El {
        let asked = self.asked_of("pool");
        let outlines = asked
            .map(|asked| asked.outlines.as_slice())
            .unwrap_or_default();
        let facts = asked
            .map(|asked| asked.facts.as_slice())
            .unwrap_or_default();
        let is_drawn = |id: &&str| !NOT_DRAWN.contains(&shape_of(pool.get(id)));
        let mut known =
            std::iter::once("water").chain(outlines.iter().map(|outline| outline.id.as_str()));
        let drawn = known.find(is_drawn).unwrap_or("water");
        let said = outlines.iter().find(|outline| outline.id == drawn);
        let said = said.map_or_else(|| t("pool.water"), |outline| outline.said.clone());
        let others = outlines.iter().filter(|outline| outline.id != drawn);
        let edges = el("fieldset")
            .class("outlines")
            .with(el("legend").with(heading(&said)));
        let gone = button("pool-gone")
            .class("plain danger")
            .set("data-path", path.to_owned());
        el("div")
            .with(el("p").class("hint").with(t("pool.drag")))
            .with(edges.with(self.area(&format!("{path}.{drawn}"))))
            .with(self.source(path))
            .with(self.facts(facts, path))
            .with(el("h3").with(t("pool.outlines")))
            .with(el("p").class("hint").with(t("pool.outlines-hint")))
            .each(self.edges(path, others, (drawn, &said)))
            .with(gone.with(t("pool.gone")))
    }
}

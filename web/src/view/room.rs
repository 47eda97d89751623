//! Where the pool could go, in words: how far the search is, what the map's looks mean, and the places on offer.

use rules_core::placement::{Class, Offer as OfferedPlace, Placement, RuleName, RuleThere, Way};
use rules_core::report::VerdictWords;
use rules_core::text::Node;

use super::keyed::{El, button, el, show};
use super::marks::{is_settled, mark_of, verdict_said};
use super::prose::prose;
use super::room_map::{SHOWN, middle_sign, name, swatch};
use crate::held::{length_said, with};
use crate::looks::{Looks, with_looks};
use crate::plan::{name_of, things};
use crate::room::{Answer, Stage, moved, now};
use crate::words::{count, fill, t};

/// Shows the section, or hides it while it is switched off.
pub fn show_room() {
    let looks = with_looks(|looks| looks.clone());
    let content = match looks.room {
        true => panel(&looks),
        false => el("div").is("hidden", true),
    };
    show("room", content);
}

fn panel(looks: &Looks) -> El {
    let (stage, last) = now();
    let answer = last.as_deref();
    let found = answer.and_then(|answer| answer.found.as_ref().ok());
    let fresh = stage == Stage::Found;
    el("div")
        .set("role", "group")
        .set("aria-labelledby", "room-head")
        .with(el("h3").id("room-head").with(t("room.head")))
        .with(state(stage, answer))
        .with(moved().map(|moved| el("p").id("room-moved").with(moved)))
        .with(found.map(|found| legend(found, fresh)))
        .with(found.map(|found| places(found, fresh)))
        .with(found.filter(|_| fresh).map(remarks))
        .with((stage != Stage::NotYet).then(|| more(looks)))
        .with(found.map(|_| el("p").class("hint").with(t("room.proposes"))))
}

/// How far the search is, with a button to stop it or to start it again.
fn state(stage: Stage, last: Option<&Answer>) -> El {
    let act = |act, key| button(act).id(act).with(t(key));
    let old = || last.map(|_| format!(" {}", t("room.old")));
    let (said, act) = match stage {
        Stage::NotYet => (t("room.not-yet"), None),
        Stage::Looking => (
            t("room.looking") + &old().unwrap_or_default(),
            Some(act("room-stopped", "room.stop")),
        ),
        Stage::Stopped => (
            t("room.stopped") + &old().unwrap_or_default(),
            Some(act("room-again", "room.again")),
        ),
        Stage::Found => (last.map(outcome).unwrap_or_default(), None),
    };
    el("div")
        .class("row")
        .set("data-stage", format!("{stage:?}"))
        .id("room-state")
        .with(el("p").with(said))
        .with(act)
}

/// What was found, in a sentence.
pub fn outcome(answer: &Answer) -> String {
    match &answer.found {
        Ok(found) => t(&format!("room.is.{}", best(found))),
        Err(why) if why.is_empty() => t("room.not-yet"),
        Err(why) => why.clone(),
    }
}

/// How surely the rules hold in the best place on offer, by name.
fn best(found: &Placement) -> &'static str {
    found.best().map_or("never", name)
}

/// What the looks of the map mean: those that are on it.
fn legend(found: &Placement, fresh: bool) -> El {
    let turn = found.turns.first();
    let is_there =
        |class: Class| turn.is_some_and(|it| it.cells.iter().any(|it| it.holds == class));
    let row = |sign: El, key: &str| el("li").with(sign).with(t(key));
    let looks = SHOWN.into_iter().filter(|(class, _)| is_there(*class));
    let looks = looks.map(|(_, name)| row(swatch(name), &format!("room.look.{name}")));
    let press = || el("p").class("hint").with(t("room.press"));
    let any = turn.is_some_and(|turn| !turn.cells.is_empty());
    el("div")
        .id("room-legend")
        .with(el("p").with(t("room.legend")))
        .with(
            el("ul")
                .each(looks)
                .with(row(middle_sign(), "room.look.middle")),
        )
        .with((any && fresh).then(press))
}

/// The nearest of the places on offer, by its number in the list.
pub fn nearest(found: &Placement) -> Option<usize> {
    let is_nearest = |offer: &OfferedPlace| offer.why.contains(&"nearest");
    let nearest = found.options.iter().position(is_nearest);
    nearest.or((!found.options.is_empty()).then_some(0))
}

fn places(found: &Placement, fresh: bool) -> Option<El> {
    nearest(found)?;
    let go = button("room-nearest")
        .id("room-nearest")
        .class("add")
        .set("aria-disabled", (!fresh).to_string())
        .with(t(&format!("room.nearest.{}", best(found))));
    let offers = found.options.iter().enumerate();
    let cards = el("ol")
        .id("room-places")
        .set("aria-label", t("room.places"))
        .each(offers.map(|(at, offer)| card(at, offer, fresh)));
    Some(el("div").with(go).with(cards))
}

/// A place on offer.
fn card(at: usize, offer: &OfferedPlace, fresh: bool) -> El {
    let number = (at + 1).to_string();
    let take = button("room-taken")
        .id(format!("room-take-{at}"))
        .set("data-at", at.to_string())
        .set("aria-disabled", (!fresh).to_string())
        .set("aria-label", fill("room.take.this", &[("n", &number)]));
    let why: Vec<String> = offer
        .why
        .iter()
        .map(|why| t(&format!("room.why.{why}")))
        .collect();
    let line = |said: String| el("p").with(said);
    el("li")
        .id(format!("room-place-{at}"))
        .class("room-card")
        .with(
            el("h4")
                .with(el("span").class("number").with(number))
                .with(why.join(" · ")),
        )
        .with(line(away(offer)))
        .with(line(t(&format!("room.holds.{}", name(offer.holds)))))
        .with(offer.room.map(room_said).map(line))
        .with(line(verdict_there(&offer.verdict)))
        .with(there(at, &offer.rules))
        .with(take.with(t("room.take")))
}

/// How far the place is.
fn away(offer: &OfferedPlace) -> String {
    match way_said(offer.way, offer.degrees) {
        Some(way) => fill("room.away", &[("way", &way)]),
        None => t("room.is-there"),
    }
}

/// What the checker says of the whole plan there.
fn verdict_there(verdict: &VerdictWords) -> String {
    fill("room.verdict", &[("verdict", &verdict_said(verdict.word))])
}

/// The smallest margin.
fn room_said(millimetres: i64) -> String {
    let key = if millimetres < 0 {
        "room.short"
    } else {
        "room.margin"
    };
    fill(
        key,
        &[("n", &length_said(millimetres.unsigned_abs() as f64))],
    )
}

/// Each rule in a place, those first that are not settled.
fn there(at: usize, rules: &[RuleThere]) -> El {
    let (settled, open): (Vec<_>, Vec<_>) = rules.iter().partition(|rule| is_settled(rule.outcome));
    let row = |rule: &RuleThere| {
        let figures = (!rule.brief.is_empty()).then(|| {
            let brief = el("span").class("brief").said();
            brief.with(prose(&rule.brief))
        });
        el("li")
            .set("data-outcome", rule.outcome.word())
            .with(mark_of(rule.outcome))
            .with(el("span").with(rule.title.clone()).with(figures))
    };
    el("details")
        .class("about")
        .id(format!("room-rules-{at}"))
        .with(el("summary").with(count("room.rules", rules.len())))
        .with(el("ul").each(open.into_iter().chain(settled).map(row)))
}

/// How far the pool is moved and turned; `None` if it stays where it is.
pub fn way_said(way: Way, degrees: f64) -> Option<String> {
    let part = |by: i64, forwards: &str, backwards: &str| {
        let key = if by > 0 { forwards } else { backwards };
        (by != 0).then(|| fill(key, &[("n", &length_said(by.unsigned_abs() as f64))]))
    };
    let turned = || fill("room.turned", &[("n", &degrees.to_string())]);
    let parts = [
        part(way.x, "room.east", "room.west"),
        part(way.y, "room.north", "room.south"),
        (degrees != 0.0).then(turned),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    (!parts.is_empty()).then(|| parts.join(", "))
}

/// What moving the pool cannot solve, and why there is no room.
fn remarks(found: &Placement) -> El {
    let titles = |rules: &[RuleName]| {
        let titles: Vec<&str> = rules.iter().map(|rule| rule.title.as_str()).collect();
        titles.join("; ")
    };
    let about = |key: &str, rules: &[RuleName]| {
        let said = || el("p").with(fill(key, &[("rules", &titles(rules))]));
        (!rules.is_empty()).then(said)
    };
    el("div")
        .id("room-remarks")
        .with((found.best() != Some(Class::Sure)).then(|| el("p").with(t("room.stays"))))
        .with(why_not(found))
        .with(about("room.fails-anyway", &found.fails_anyway))
        .with(about("room.open-anyway", &found.open_anyway))
}

/// Why there is no place where each rule holds, and how much smaller the pool would fit.
fn why_not(found: &Placement) -> Option<El> {
    let why = found.why_not.first();
    let smaller = found.smaller.as_ref().map(|smaller| {
        let share = (smaller.thousandths / 10).to_string();
        el("p").with(fill("room.smaller", &[("n", &share)]))
    });
    let reasons = why.map(|why| {
        let said = match why.rules.len() {
            0 => t("room.too-large"),
            many => count("room.reasons", many),
        };
        let rules = why
            .rules
            .iter()
            .map(|it| el("li").with(it.rule.title.clone()));
        el("div")
            .with(el("p").with(said))
            .with(el("ul").each(rules))
    });
    let most = found
        .blocks
        .first()
        .filter(|_| why.is_none() && found.best() > Some(Class::AsDrawn));
    let most = most.map(|block| {
        let share = (block.places * 100 / block.of.max(1)).to_string();
        let with = [("n", share.as_str()), ("rule", block.rule.title.as_str())];
        el("p").with(fill("room.most", &with))
    });
    let any = smaller.is_some() || reasons.is_some() || most.is_some();
    any.then(|| {
        el("div")
            .id("room-why")
            .with(reasons)
            .with(most)
            .with(smaller)
    })
}

/// What else can be tried: turned, and with other things along.
fn more(looks: &Looks) -> El {
    let tick = |id: String, act, ticked: bool, said: String| {
        let field = el("input").set("type", "checkbox").id(id).does(act);
        (field.is("checked", ticked), said)
    };
    let row = |(field, said): (El, String)| el("label").class("tick").with(field).with(said);
    let things = with(|session| {
        let named = things(session.plan()).map(|(_, thing)| {
            let id = thing.get("id").and_then(Node::text);
            (id.unwrap_or_default().to_owned(), name_of(thing))
        });
        named.collect::<Vec<_>>()
    });
    let along = things.into_iter().map(|(id, said)| {
        let ticked = looks.room_with.contains(&id);
        let (field, said) = tick(format!("room-with-{id}"), "room-with", ticked, said);
        row((field.set("data-id", id), said))
    });
    let turned = looks.room_turned;
    let turned = tick(
        "room-turned".to_owned(),
        "room-turned",
        turned,
        t("room.turn-too"),
    );
    el("details")
        .class("about")
        .id("room-more")
        .with(el("summary").with(t("room.more")))
        .with(row(turned))
        .with(
            el("fieldset")
                .with(el("legend").with(t("room.along")))
                .each(along),
        )
}

#[cfg(test)]
mod tests {
    use rules_core::placement::Way;

    use super::{room_said, way_said};
    use crate::held::length_said;
    use crate::words::choose;

    #[test]
    fn a_way_is_told_as_a_person_would() {
        let [far, near] = [1200.0, 350.0].map(length_said);
        let way = Way { x: 1200, y: -350 };
        assert_eq!(
            way_said(way, 0.0),
            Some(format!("{far} east, {near} south"))
        );
        let up = Way { x: 0, y: 350 };
        let turned = format!("{near} north, turned left by 90°");
        assert_eq!(way_said(up, 90.0), Some(turned));
        assert_eq!(way_said(Way::default(), 0.0), None);
        choose("nb");
        let far = length_said(1200.0);
        let west = Way { x: -1200, y: 0 };
        assert_eq!(way_said(west, 0.0), Some(format!("{far} vest")));
        assert!(far.contains(','), "{far}");
        choose("en");
    }

    #[test]
    fn what_falls_short_is_no_margin() {
        assert!(room_said(410).starts_with("Smallest margin as drawn"));
        let short = format!("{} short of one rule", length_said(1450.0));
        assert!(room_said(-1450).contains(&short));
    }
}

//! What is done about where the pool could go: looking for places, and taking one.

use rules_core::edit::Change;
use rules_core::placement::{Placement, Way};
use web_sys::Element;

use super::{announce, is_ticked, said};
use crate::browser::redraw;
use crate::held::with;
use crate::looks::{Looks, with_looks};
use crate::room::{Answer, Stage, answer, look_again, now, set_moved, stop};
use crate::view::drawing::show_drawing;
use crate::view::ground::screen;
use crate::view::keyed::element;
use crate::view::room::{nearest, outcome, show_room, way_said};
use crate::words::{fill, t};

/// Does an act. Returns whether to show the page again; `None` if the act is none of these.
pub fn act(name: &str, on: &Element) -> Option<bool> {
    match name {
        "room" => with_looks(|looks| looks.room = !looks.room),
        "room-stopped" => {
            stop();
            announce(&t("room.stopped"));
        }
        "room-again" => look_again(),
        "room-turned" => with_looks(|looks| looks.room_turned = is_ticked(on)),
        "room-with" => with_looks(|looks| take_along(looks, said(on, "id"), is_ticked(on))),
        "room-nearest" => return Some(take_nearest()),
        "room-taken" => return Some(take(said(on, "at").parse().unwrap_or(0))),
        _ => return None,
    }
    Some(true)
}

fn take_along(looks: &mut Looks, id: String, along: bool) {
    match along {
        true => looks.room_with.insert(id),
        false => looks.room_with.remove(&id),
    };
}

/// The search has ended: shows what it found.
pub fn found() {
    show_room();
    show_drawing();
    if let (Stage::Found, Some(answer)) = now() {
        announce(&outcome(&answer));
    }
}

fn take_nearest() -> bool {
    let at = answer().and_then(|answer| nearest(answer.found.as_ref().ok()?));
    at.is_some_and(take)
}

/// Takes a place on offer, by its number in the list.
fn take(at: usize) -> bool {
    let Some(answer) = answer() else { return false };
    let offer = answer.found.as_ref().ok().and_then(|it| it.options.get(at));
    if let Some(offer) = offer {
        put(&answer, offer.way, offer.degrees);
    }
    false
}

/// The map is pressed at a place of the screen: the pool goes to the nearest place there is. Returns whether it does.
pub fn pressed(at: [f64; 2]) -> bool {
    let Some((answer, screen)) = answer().zip(screen()) else {
        return false;
    };
    let place = answer.map().and_then(|(found, map)| {
        let at = from_middle(found, screen.ground(at));
        map.nearest_to(at)
    });
    if let Some(way) = place {
        put(&answer, way, 0.0);
    }
    place.is_some()
}

/// The way from the pool's middle to a place of the plan.
fn from_middle(found: &Placement, [east, north]: [f64; 2]) -> Way {
    // No plan is so large that this loses anything.
    let whole = |millimetres: f64| millimetres.round() as i64;
    Way {
        x: whole(east) - found.middle.x,
        y: whole(north) - found.middle.y,
    }
}

/// Puts the pool there, with what moves with it, as one step; says so, and what the checker now says.
fn put(answer: &Answer, way: Way, degrees: f64) {
    let Ok(found) = &answer.found else { return };
    let question = &answer.question;
    let moving = std::iter::once(&question.pool).chain(&question.with);
    let changes: Vec<Change> = moving
        .flat_map(|id| changes(id, (found.middle, way), degrees))
        .collect();
    if let Err(wrong) = with(|session| session.edit_all(&changes)) {
        return announce(&wrong.0);
    }
    let moved = match way_said(way, degrees) {
        Some(way) => fill("room.moved", &[("way", &way)]),
        None => t("room.unmoved"),
    };
    set_moved(moved.clone());
    redraw();
    let verdict = element("verdict-word").and_then(|word| word.text_content());
    announce(&format!("{moved} {}", verdict.unwrap_or_default()));
}

/// What has to be changed of a thing so that it goes there.
fn changes(id: &str, (middle, way): (Way, Way), degrees: f64) -> Vec<Change> {
    let metres = |millimetres: i64| millimetres as f64 / 1000.0;
    let turned = Change::Turn {
        path: id.to_owned(),
        degrees,
        about: Some([metres(middle.x), metres(middle.y)]),
    };
    let moved = Change::Move {
        path: id.to_owned(),
        dx: metres(way.x),
        dy: metres(way.y),
    };
    let turned = (degrees != 0.0).then_some(turned);
    turned.into_iter().chain([moved]).collect()
}

#[cfg(test)]
mod tests {
    use rules_core::edit::Change;
    use rules_core::placement::Way;

    use super::changes;

    #[test]
    fn a_thing_is_turned_about_the_pools_middle_before_it_is_moved() {
        let (middle, way) = (Way { x: 4200, y: 25_700 }, Way { x: -50, y: 1250 });
        let moved = Change::Move {
            path: "pool".to_owned(),
            dx: -0.05,
            dy: 1.25,
        };
        let only_moved = changes("pool", (middle, way), 0.0);
        assert_eq!(only_moved.as_slice(), std::slice::from_ref(&moved));
        let turned = Change::Turn {
            path: "pool".to_owned(),
            degrees: 90.0,
            about: Some([4.2, 25.7]),
        };
        assert_eq!(changes("pool", (middle, way), 90.0), [turned, moved]);
    }
}

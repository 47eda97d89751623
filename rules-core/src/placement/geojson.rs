//! The map as GeoJSON (RFC 7946).
//!
//! RFC 7946 wants longitude and latitude. A plan does not say where on the earth it lies, so its own coordinates are given,
//! in metres, and the collection says so.

use serde_json::{Value, json};

use super::model::{Offer, Placement, Region};
use super::spot::Way;
use crate::text::plain_json;

const COORDINATES: &str = "East and north in metres, in the plan's own coordinates. The plan does not say where on the earth it lies, so \
    these are not longitude and latitude, which RFC 7946, section 4, asks for.";

/// The map and the places on offer, as a collection of features: each part of the map with the rules that count there, and
/// the middle of the pool in each place on offer.
pub fn place_to_geojson(found: &Placement) -> String {
    let areas = found.turns.iter().flat_map(|turn| {
        let regions = turn.regions.iter();
        regions.map(|region| area(region, turn.degrees, found.middle))
    });
    let offers = (1..).zip(&found.options);
    let offers = offers.map(|(number, offer)| place(number, offer, found.middle));
    let collection = json!({
        "type": "FeatureCollection",
        "plan": found.plan,
        "rules": found.rules,
        "coordinates-are": COORDINATES,
        "disclaimer": found.disclaimer,
        "features": areas.chain(offers).collect::<Vec<Value>>(),
    });
    // Text, numbers and lists of them can always be written.
    let text = serde_json::to_string_pretty(&collection).unwrap_or_default();
    plain_json(text + "\n")
}

fn area(region: &Region, degrees: f64, middle: Way) -> Value {
    let ring = |ring: &Vec<Way>| -> Vec<Value> {
        let closed = ring.iter().chain(ring.first());
        closed.map(|way| position(*way, middle)).collect()
    };
    let polygon = |rings: &Vec<Vec<Way>>| -> Vec<Vec<Value>> { rings.iter().map(ring).collect() };
    let polygons: Vec<_> = region.polygons.iter().map(polygon).collect();
    json!({
        "type": "Feature",
        "geometry": {"type": "MultiPolygon", "coordinates": polygons},
        "properties": {
            "what": "where the middle of the pool may lie",
            "holds": region.holds,
            "edge": region.edge,
            "rules": region.rules,
            "square-metres": region.square_metres,
            "degrees": degrees,
        },
    })
}

fn place(number: usize, offer: &Offer, middle: Way) -> Value {
    json!({
        "type": "Feature",
        "geometry": {"type": "Point", "coordinates": position(offer.way, middle)},
        "properties": {
            "what": "the middle of the pool in a place on offer",
            "number": number,
            "why": offer.why,
            "holds": offer.holds,
            "degrees": offer.degrees,
            "moved": offer.moved,
        },
    })
}

/// East and north in metres, to the millimetre.
fn position(way: Way, middle: Way) -> Value {
    let metres = |millimetres: i64| millimetres as f64 / 1000.0;
    json!([metres(middle.x + way.x), metres(middle.y + way.y)])
}

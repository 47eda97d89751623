//! How large the same shape can be where the pool as drawn fits nowhere.

use super::model::{Offer, Smaller};
use super::offers::offers;
use super::{Ground, NotPlaced, Wishes};
use crate::edit::scale;
use crate::quantity::Unit;
use crate::ruleset::RuleSet;
use crate::text::Node;

/// The smallest scale that is tried, in thousandths.
const SMALLEST: i64 = 300;
/// The scale as drawn.
const WHOLE: i64 = 1000;
/// The precision to which the scale is found.
const CLOSE: i64 = 10;

/// The largest scale at which a place was found where each rule holds, at least as drawn. The ordinary checker has judged
/// that place too.
pub(super) fn smaller(
    document: (&Node, &str),
    (rules, wishes, unit): (&RuleSet, &Wishes, Unit),
    pool: &str,
) -> Option<Smaller> {
    let fits = |thousandths: i64| -> Option<Smaller> {
        let offer = offer_at(document, (rules, wishes, unit), (pool, thousandths)).ok()??;
        Some(Smaller { thousandths, offer })
    };
    let mut best = fits(SMALLEST)?;
    let (mut low, mut high) = (SMALLEST, WHOLE);
    while high - low > CLOSE {
        let middle = low + (high - low) / 2;
        match fits(middle) {
            Some(found) => {
                best = found;
                low = middle;
            }
            None => high = middle,
        }
    }
    Some(best)
}

fn offer_at(
    (document, text): (&Node, &str),
    (rules, wishes, unit): (&RuleSet, &Wishes, Unit),
    (pool, thousandths): (&str, i64),
) -> Result<Option<Offer>, NotPlaced> {
    let mut document = document.clone();
    scale(&mut document, pool, i128::from(thousandths)).map_err(|it| NotPlaced::Unclear(it.0))?;
    let ground = Ground::new((&document, text), rules, wishes, 0.0)?;
    let offers = offers(&mut [ground], unit).into_iter();
    Ok(offers
        .take(1)
        .find(|offer| offer.holds < super::Class::Open))
}

//! Interval arithmetic against every pair of members.

use super::*;

const SMALL: std::ops::RangeInclusive<i128> = -4..=4;

fn intervals() -> Vec<Interval> {
    let mut all: Vec<_> = SMALL
        .flat_map(|low| (low..=4).map(move |high| Interval { low, high }))
        .collect();
    all.extend([
        Interval::from_low(-1),
        Interval::from_low(2),
        Interval::up_to(1),
        Interval::up_to(-2),
        Interval::any(),
    ]);
    all
}

/// Runs `check` on every pair of intervals with every pair of their small members.
fn for_members(check: impl Fn(Interval, Interval, i128, i128)) {
    for one in intervals() {
        for two in intervals() {
            for a in SMALL.filter(|a| one.contains(*a)) {
                SMALL
                    .filter(|b| two.contains(*b))
                    .for_each(|b| check(one, two, a, b));
            }
        }
    }
}

#[test]
fn results_contain_what_any_two_members_give() {
    for_members(|one, two, a, b| {
        assert!(one.add(two).contains(a + b));
        assert!(one.sub(two).contains(a - b));
        assert!(one.neg().contains(-a));
        assert!(one.min(two).contains(a.min(b)));
        assert!(one.max(two).contains(a.max(b)));
        assert!(one.hull(two).contains(a) && one.hull(two).contains(b));
        assert!(one.widen(b).contains(a + b) && one.widen(b).contains(a - b));
        let (area, dimension) = one
            .times(Dimension::Length, two, Dimension::Length)
            .unwrap();
        assert!(area.contains(a * b) && dimension == Dimension::Area);
        if b != 0 {
            let share = one.divide(two);
            let (below, above) = ((a * ONE).div_euclid(b), -((-a * ONE).div_euclid(b)));
            assert!(
                share.low <= below.min(above) && share.high >= below.max(above),
                "{one:?} / {two:?}: {a} / {b} not in {share:?}"
            );
        }
        if a == b {
            assert!(one.meet(two).is_some_and(|both| both.contains(a)));
        }
    });
}

/// The relation between two amounts.
type Holds = fn(i128, i128) -> bool;

#[test]
fn comparisons_agree_with_all_pairs_of_members() {
    let relations: [(Relation, Holds); 5] = [
        (Relation::AtLeast, |a, b| a >= b),
        (Relation::MoreThan, |a, b| a > b),
        (Relation::AtMost, |a, b| a <= b),
        (Relation::LessThan, |a, b| a < b),
        (Relation::Is, |a, b| a == b),
    ];
    for (relation, holds) in relations {
        for one in intervals() {
            for two in intervals() {
                let wide = -9..=9;
                let members = |range: Interval| wide.clone().filter(move |a| range.contains(*a));
                let pairs = || members(one).flat_map(|a| members(two).map(move |b| (a, b)));
                let judged = relation.judge(one, two);
                assert_eq!(
                    judged.can_be_true,
                    pairs().any(|(a, b)| holds(a, b)),
                    "{one:?} {relation:?} {two:?}"
                );
                assert_eq!(
                    judged.can_be_false,
                    pairs().any(|(a, b)| !holds(a, b)),
                    "{one:?} {relation:?} {two:?}"
                );
            }
        }
    }
}

#[test]
fn an_end_that_does_not_fit_has_no_bound() {
    let huge = Interval::exact(NO_HIGH - 1);
    assert_eq!(huge.add(huge), Interval::any());
    assert_eq!(huge.neg().sub(huge), Interval::any());
    assert_eq!(huge.widen(i128::MIN), Interval::any());
    assert_eq!(
        huge.times(Dimension::Length, huge, Dimension::Length),
        Some((Interval::any(), Dimension::Area))
    );
    assert_eq!(Interval::any().neg(), Interval::any());
    assert_eq!(Interval::from_low(2).neg(), Interval::up_to(-2));
}

#[test]
fn products_and_shares() {
    let number = Interval::new(ONE / 2, ONE);
    let volume = Interval::exact(10_i128.pow(30));
    let half = (
        Interval::new(5 * 10_i128.pow(29), 10_i128.pow(30)),
        Dimension::Volume,
    );
    assert_eq!(
        number.times(Dimension::Number, volume, Dimension::Volume),
        Some(half)
    );
    assert_eq!(
        Interval::exact(1).times(Dimension::Length, Interval::exact(1), Dimension::Volume),
        None
    );
    assert_eq!(
        Interval::exact(1).times(Dimension::Number, Interval::exact(1), Dimension::Date),
        None
    );
    assert_eq!(
        Interval::exact(1).divide(Interval::exact(3)),
        Interval::new(333_333_333, 333_333_334)
    );
    assert_eq!(
        Interval::new(1, 2).divide(Interval::new(0, 4)),
        Interval::from_low(ONE / 4)
    );
    assert_eq!(
        Interval::exact(1).divide(Interval::from_low(1)),
        Interval::new(0, ONE)
    );
    assert_eq!(Interval::exact(0).divide(Interval::exact(0)).high, NO_HIGH);
}

#[test]
fn a_positive_margin_is_good() {
    let (measured, limit) = (Interval::new(2, 5), Interval::exact(3));
    assert_eq!(
        Relation::AtLeast.margin(measured, limit),
        Some(Interval::new(-1, 2))
    );
    assert_eq!(
        Relation::AtMost.margin(measured, limit),
        Some(Interval::new(-2, 1))
    );
    assert_eq!(Relation::Is.margin(measured, limit), None);
}

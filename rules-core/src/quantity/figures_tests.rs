//! What is printed, and what a reader concludes from it.

use super::*;

fn amount(text: &str) -> i128 {
    parse(text, None, None).unwrap().drawn.unwrap()
}

fn holds(measured: &str, relation: Relation, limit: &str) -> bool {
    relation
        .judge(
            Interval::exact(amount(measured)),
            Interval::exact(amount(limit)),
        )
        .surely()
}

#[test]
fn exactly_at_the_limit() {
    assert!(holds("4 ft", Relation::AtLeast, "48 in"));
    assert!(!holds("4 ft", Relation::MoreThan, "48 in"));
    assert!(!holds("1.2 m", Relation::AtLeast, "48 in"));
    assert!(holds("54 in", Relation::AtLeast, "4.5 ft"));
    assert!(holds("54 in", Relation::Is, "1.3716 m"));
}

#[test]
fn amounts_in_words() {
    let exactly = |text, unit| show_exactly(amount(text), unit);
    assert_eq!(exactly("54 in", Unit::FOOT), "4 ft 6 in");
    assert_eq!(exactly("54 in", Unit::INCH), "54 in");
    assert_eq!(exactly("1.75 in", Unit::INCH), "1-3/4 in");
    assert_eq!(exactly("0.5 in", Unit::FOOT), "1/2 in");
    assert_eq!(exactly("48 in", Unit::FOOT), "4 ft");
    assert_eq!(exactly("0 m", Unit::FOOT), "0 ft");
    assert_eq!(exactly("-18 in", Unit::FOOT), "-1 ft 6 in");
    assert_eq!(exactly("3 m", Unit::METRE), "3 m");
    assert_eq!(exactly("3.2004 m", Unit::METRE), "3.2004 m");
    assert_eq!(exactly("1 week", Unit::DAY), "7 days");
    assert_eq!(exactly("1 day", Unit::DAY), "1 day");
    assert_eq!(exactly("10 days", Unit::WEEK), "10 days");
    assert_eq!(exactly("14 months", Unit::YEAR), "14 months");
    assert_eq!(exactly("40 %", Unit::PERCENT), "40 %");
    assert_eq!(exactly("0.4", Unit::ONE), "0.4");
    assert_eq!(exactly("2026-03-01", Unit::DATE), "2026-03-01");
    assert_eq!(exactly("12.5 deg", Unit::DEGREE), "12.5°");
    assert_eq!(exactly("12000 gal", Unit::US_GALLON), "12000 gal");
}

#[test]
fn figures_are_rounded_the_way_that_is_asked_for() {
    let metres = |text, rounding| show(amount(text), Unit::METRE, rounding, 2);
    assert_eq!(metres("2.9961 m", Rounding::Down), "2.99 m");
    assert_eq!(metres("2.9961 m", Rounding::Up), "3 m");
    assert_eq!(metres("-2.9961 m", Rounding::Down), "-3 m");
    assert_eq!(metres("-0.001 m", Rounding::Nearest), "0 m");
    assert_eq!(show(NO_HIGH, Unit::METRE, Rounding::Up, 2), "unlimited");
    assert_eq!(show(NO_LOW, Unit::METRE, Rounding::Down, 2), "no least");
    assert_eq!(
        show_range(Interval::new(2_871_000_000, 2_879_000_000), Unit::METRE, 2),
        "2.87 m .. 2.88 m"
    );
    assert_eq!(
        show_range(Interval::from_low(amount("3 m")), Unit::METRE, 2),
        "at least 3 m"
    );
}

#[test]
fn figures_at_the_edge_get_more_digits() {
    let limit = Interval::exact(amount("3 m"));
    let printed = |low, high| {
        let measured = (Interval::new(low, high), Unit::METRE);
        Figures::across(measured, Relation::AtLeast, (limit, Unit::METRE))
    };
    let short = printed(2_900_000_000, 2_999_999_000);
    assert_eq!(
        (
            short.low.as_str(),
            short.high.as_str(),
            short.limit.1.as_str()
        ),
        ("2.9 m", "2.999999 m", "3 m")
    );
    assert_eq!(printed(0, 2_999_400_001).high, "2.9995 m"); // no more digits than it takes
    let plain = printed(2_871_200_000, 2_871_300_000);
    assert_eq!(
        (plain.low.as_str(), plain.high.as_str()),
        ("2.87 m", "2.88 m")
    );
    assert_eq!(printed(2_871_200_000, NO_HIGH).high, "unlimited");
}

#[test]
fn days_against_months_keep_their_own_units() {
    let figures = Figures::across(
        (Interval::exact(61), Unit::DAY),
        Relation::AtMost,
        (Interval::exact(2000), Unit::MONTH),
    );
    assert_eq!(
        (figures.high.as_str(), figures.limit.0.as_str()),
        ("61 days", "2 months")
    );
}

/// A small random number generator, the same on every machine.
struct Numbers(u64);

impl Numbers {
    fn next(&mut self) -> i128 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        i128::from(self.0 >> 33)
    }

    fn below(&mut self, limit: i128) -> i128 {
        self.next() % limit
    }
}

/// What somebody concludes who has only the printed figures.
fn conclude(figures: &Figures, relation: Relation, dimension: Dimension) -> Compared {
    let read = |text: &str| match text {
        "no least" => Interval::exact(NO_LOW),
        "unlimited" => Interval::exact(NO_HIGH),
        _ => {
            parse(text, Some(dimension), None)
                .unwrap_or_else(|fault| panic!("{text}: {fault}"))
                .range
        }
    };
    let range = |low: &str, high: &str| Interval {
        low: read(low).low,
        high: read(high).high,
    };
    let (low, high) = &figures.limit;
    relation.judge(range(&figures.low, &figures.high), range(low, high))
}

#[test]
fn printed_figures_give_the_outcome() {
    let relations = [
        Relation::AtLeast,
        Relation::MoreThan,
        Relation::AtMost,
        Relation::LessThan,
        Relation::Is,
    ];
    let mut numbers = Numbers(20_260_301);
    for round in 0..60 {
        for unit in Unit::ALL.iter().copied() {
            let (numerator, denominator) = unit.size();
            let one = i128::try_from(numerator / denominator).unwrap();
            // Amounts near a limit that somebody would write: up to a tiny unit, a few digits or some units away from it.
            let limit = (numbers.below(2000) - 200) * one / [1, 2, 3, 16][round % 4];
            let step = [1, one / 1000 + 1, one / 7 + 1, one][round / 4 % 4];
            let low = limit + (numbers.below(7) - 3) * step;
            let high = low + numbers.below(3) * step;
            let limit = Interval::exact(limit).widen(if round % 5 == 0 {
                numbers.below(2) * step
            } else {
                0
            });
            let measured = Interval::new(low, high);
            for relation in relations {
                let figures = Figures::across((measured, unit), relation, (limit, unit));
                let exact = relation.judge(measured, limit);
                assert_eq!(
                    conclude(&figures, relation, unit.dimension()),
                    exact,
                    "{figures:?} {relation:?} {measured:?} {limit:?}"
                );
            }
        }
    }
}

#[test]
fn an_amount_shown_exactly_reads_back_the_same() {
    let mut numbers = Numbers(3);
    for _ in 0..60 {
        for unit in Unit::ALL.iter().copied() {
            let (numerator, denominator) = unit.size();
            let one = i128::try_from(numerator / denominator).unwrap();
            let amount = numbers.below(500) * one + numbers.next() % one;
            let text = show_exactly(amount, unit);
            let again = parse(&text, Some(unit.dimension()), None)
                .unwrap_or_else(|fault| panic!("{text}: {fault}"));
            assert_eq!(again.drawn, Some(amount), "{text}");
        }
    }
}

//! What people write, and what it means.

use super::*;

fn length(text: &str) -> i128 {
    let written = parse(text, Some(Dimension::Length), None)
        .unwrap_or_else(|fault| panic!("{text}: {fault}"));
    written.drawn.expect("one length")
}

fn amount(text: &str, dimension: Dimension) -> i128 {
    let written =
        parse(text, Some(dimension), None).unwrap_or_else(|fault| panic!("{text}: {fault}"));
    written.drawn.expect("one amount")
}

fn refused(text: &str, wanted: Dimension) -> String {
    match parse(text, Some(wanted), None) {
        Ok(written) => panic!("`{text}` was read as {written:?}"),
        Err(fault) => format!("{}. {}", fault.sentence, fault.help),
    }
}

#[test]
fn lengths_in_every_spelling() {
    let inch = 25_400_000; // exactly 25.4 mm: international yard and pound agreement, 1959
    assert_eq!(length("3.2 m"), 3_200_000_000);
    assert_eq!(length("3.2m"), 3_200_000_000);
    assert_eq!(length("1200 mm"), 1_200_000_000);
    assert_eq!(length("0.5 km"), 500_000_000_000);
    assert_eq!(length("-0.3 m"), -300_000_000);
    assert_eq!(length("1 in"), inch);
    assert_eq!(length("1/64 in"), 396_875);
    assert_eq!(length("1 yd"), 36 * inch);
    for text in [
        "4 ft 6 in",
        "4' 6\"",
        "4'6\"",
        "4'-6\"",
        "54 in",
        "4.5 ft",
        "4-1/2 ft",
        "4 1/2 ft",
        "54\"",
        "4′ 6″",
        "4 FT 6 IN",
        "4 feet 6 inches",
    ] {
        assert_eq!(length(text), 54 * inch, "{text}");
    }
    assert_eq!(length("6 ft 6-1/2 in"), 78 * inch + inch / 2);
    assert_eq!(length("-1 ft 6 in"), -18 * inch);
    assert_eq!(length("1-3/4 in"), 44_450_000);
    assert_eq!(length("1/3 in"), 8_466_667); // rounded once, to the nearest
    assert_eq!(length("2/3 in"), 16_933_333);
}

#[test]
fn published_sizes_of_units() {
    // NIST SP 811, appendix B.8, and NIST Handbook 44, appendix C (values from memory).
    assert_eq!(
        amount("1 acre", Dimension::Area),
        amount("43560 sq ft", Dimension::Area)
    );
    assert_eq!(
        amount("1 sq ft", Dimension::Area),
        amount("0.09290304 m2", Dimension::Area)
    );
    assert_eq!(
        amount("1 sq in", Dimension::Area),
        amount("6.4516 cm2", Dimension::Area)
    );
    assert_eq!(
        amount("1 ha", Dimension::Area),
        amount("10000 m²", Dimension::Area)
    );
    assert_eq!(
        amount("1 gal", Dimension::Volume),
        amount("3.785411784 l", Dimension::Volume)
    );
    assert_eq!(
        amount("1 cu ft", Dimension::Volume),
        amount("28.316846592 L", Dimension::Volume)
    );
    assert_eq!(
        amount("1728 US gal", Dimension::Volume),
        amount("231 cu ft", Dimension::Volume)
    );
    assert_eq!(
        amount("1 imp gal", Dimension::Volume),
        amount("4.54609 l", Dimension::Volume)
    );
    assert_eq!(
        amount("1000 l", Dimension::Volume),
        amount("1 m3", Dimension::Volume)
    );
    assert_eq!(
        amount("3600 m3/h", Dimension::Flow),
        amount("1000 l/s", Dimension::Flow)
    );
    // A gallon per minute is 6.309 020 E-05 m3/s; a pound per square foot is 4.882 428 kg/m2.
    assert_eq!(
        amount("1 gal/min", Dimension::Flow) / 10_i128.pow(16),
        6_309_019
    );
    assert_eq!(amount("1 lb/sq ft", Dimension::Load), 4_882_428);
    assert_eq!(
        amount("15 kV", Dimension::Voltage),
        amount("15000 V", Dimension::Voltage)
    );
    assert_eq!(
        amount("45 dB", Dimension::Sound),
        amount("45 dB(A)", Dimension::Sound)
    );
    assert_eq!(amount("12.5 deg", Dimension::Angle), 12_500_000_000);
    assert_eq!(amount("12.5°", Dimension::Angle), 12_500_000_000);
    assert_eq!(amount("1.1 kW", Dimension::Power), 1_100_000_000);
}

#[test]
fn numbers_shares_slopes_and_spans() {
    assert_eq!(
        amount("75 %", Dimension::Number),
        amount("3/4", Dimension::Number)
    );
    assert_eq!(
        amount("1:2", Dimension::Number),
        amount("0.5", Dimension::Number)
    );
    assert_eq!(amount("7", Dimension::Number), 7 * ONE);
    assert_eq!(amount("2 weeks", Dimension::Days), 14);
    assert_eq!(amount("1 year", Dimension::Months), 12_000);
    assert_eq!(
        parse("2 months", Some(Dimension::Days), None)
            .unwrap()
            .dimension,
        Dimension::Months
    );
    assert_eq!(amount("1970-01-02", Dimension::Date), 1);
    assert_eq!(parse("3", None, None).unwrap().dimension, Dimension::Number);
}

#[test]
fn ranges_and_accuracies() {
    let range = |text: &str| parse(text, Some(Dimension::Length), None).unwrap();
    for text in [
        "3.05 m ± 0.02 m",
        "3.05 ± 0.02 m",
        "3.05 m +- 20 mm",
        "3.05 m +/- 2 cm",
    ] {
        let written = range(text);
        assert_eq!(written.drawn, Some(3_050_000_000), "{text}");
        assert_eq!(
            written.range,
            Interval::new(3_030_000_000, 3_070_000_000),
            "{text}"
        );
    }
    assert_eq!(range("3 m ± 1/3 in").range.high, 3_008_466_667);
    assert_eq!(
        range("3 m ± 0.1000000001 mm").range,
        Interval::new(2_999_899_999, 3_000_100_001)
    );
    for text in ["46 in .. 50 in", "46 .. 50 in", "46..50 in"] {
        let written = range(text);
        assert_eq!((written.drawn, written.unit), (None, Unit::INCH), "{text}");
        assert_eq!(
            written.range,
            Interval::new(46 * 25_400_000, 50 * 25_400_000),
            "{text}"
        );
    }
    assert_eq!(
        range("at least 3 m").range,
        Interval::from_low(3_000_000_000)
    );
    assert_eq!(range("at most 3 m").range, Interval::up_to(3_000_000_000));
    let dates = parse("2026-03-01 .. 2026-04-01", Some(Dimension::Date), None).unwrap();
    assert_eq!(dates.range.high - dates.range.low, 31);
}

#[test]
fn a_default_unit_is_taken_only_for_its_own_dimension() {
    let read = |text, wanted| parse(text, Some(wanted), Some(Unit::MILLIMETRE));
    assert_eq!(
        read("1200", Dimension::Length).unwrap().drawn,
        Some(1_200_000_000)
    );
    assert_eq!(
        read("3 .. 4 m", Dimension::Length).unwrap().range.low,
        3_000_000_000
    );
    assert_eq!(read("3", Dimension::Number).unwrap().drawn, Some(3 * ONE));
    assert!(read("3", Dimension::Area).is_err());
}

#[test]
fn refusals_say_what_would_be_right() {
    let says = |text: &str, wanted, part: &str| {
        let fault = refused(text, wanted);
        assert!(fault.contains(part), "`{text}`: {fault}");
    };
    says(
        "3",
        Dimension::Length,
        "Write the unit, for instance `3.2 m`",
    );
    says("3,2 m", Dimension::Length, "such as `3.2`");
    says(
        "3 m2",
        Dimension::Length,
        "a length is wanted here, `3 m2` is an area",
    );
    says("3 MM", Dimension::Length, "Did you mean `3 mm`?");
    says("3 metrs", Dimension::Length, "Did you mean `3 metre`?");
    says("3 m 2 kV", Dimension::Length, "more than one figure");
    says("3 m 2 cm", Dimension::Length, "more than one figure");
    says("4 ft 12 in", Dimension::Length, "less than 12 inches");
    says("5 m .. 4 m", Dimension::Length, "lesser first");
    says("3 m .. 4", Dimension::Length, "Write `4 m`");
    says("3 m .. 4 m2", Dimension::Length, "is an area");
    says("3 m ± 5 %", Dimension::Length, "is a plain number");
    says("3 m ± -0.1 m", Dimension::Length, "not negative");
    says("1000000000000 m", Dimension::Length, "too large");
    says(
        "2026-02-29",
        Dimension::Date,
        "the calendar has no 2026-02-29",
    );
    says("3 m", Dimension::Date, "a date is wanted here");
    says("2026-03-01", Dimension::Length, "is a date");
    says(
        "0.00000000000000000000000000000000001 m",
        Dimension::Length,
        "more digits than fit",
    );
    says("1.5 days", Dimension::Days, "whole");
    says("1:0", Dimension::Number, "not a slope");
}

#[test]
fn odd_figures_are_refused() {
    for text in [
        "",
        "-",
        "m",
        "NaN",
        "inf",
        ".inf",
        "1e3 m",
        "1E3 m",
        "1e-3 m",
        "010 m",
        "1_000 m",
        ".5 m",
        "5. m",
        "1.2.3 m",
        "--3 m",
        "4 ft -6 in",
        "- -3 m",
        "+3 m",
        "1/0 in",
        "1-5/4 in",
        "0x10 m",
        "3 ± 2 ± 1 m",
        "1 .. 2 .. 3 m",
        "at least",
        "at least at least 3 m",
        "3 m m",
        "''",
        "4'' m",
        "1:2",
        "3 m ±",
        ".. 3 m",
        "1/2/3 m",
        "1.5/2 m",
        "99999999999999999999999999999999999999999 m",
        "٣ m",
        "3 \u{0} m",
    ] {
        let fault = refused(text, Dimension::Length);
        assert!(!fault.contains("Dimension"), "{fault}");
    }
}

/// An `e` begins an exponent only before a digit or a sign; otherwise it begins a unit that nobody knows.
#[test]
fn an_exponent_is_told_from_a_unit() {
    let fault = |text| parse(text, Some(Dimension::Length), None).expect_err("a fault");
    for text in ["1e3 m", "1e-3 m", "1E+3 m"] {
        assert!(fault(text).help.contains("in full"), "{text}");
    }
    for text in ["1em", "1 e", "1e m"] {
        assert!(!fault(text).help.contains("in full"), "{text}");
    }
}

#[test]
fn no_text_makes_the_reader_panic() {
    let pieces = [
        "3",
        "0",
        "1/2",
        "-",
        " ",
        "m",
        "ft",
        "'",
        "\"",
        "±",
        "..",
        ":",
        "at least ",
        "2026-03-01",
        "%",
        "€",
        "1e3",
        ".",
        "99999999999",
        "days",
        "m2",
    ];
    let mut seed = 7_u64;
    for _ in 0..20_000 {
        let mut text = String::new();
        for _ in 0..6 {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            text.push_str(pieces[(seed >> 33) as usize % pieces.len()]);
        }
        for wanted in [
            None,
            Some(Dimension::Length),
            Some(Dimension::Number),
            Some(Dimension::Date),
        ] {
            let read = parse(&text, wanted, Some(Unit::METRE));
            assert!(
                read.is_err() || read.is_ok_and(|written| written.range.low <= written.range.high),
                "{text}"
            );
        }
    }
}

#[test]
fn what_was_probably_meant_is_said_and_never_taken() {
    for (text, wanted, write) in [
        (
            "01/06/2026",
            Dimension::Date,
            "`2026-06-01` or `2026-01-06`",
        ),
        ("13/06/2026", Dimension::Date, "`2026-06-13`"),
        ("1 June 2026", Dimension::Date, "`2026-06-01`"),
        ("June 1st, 2026", Dimension::Date, "`2026-06-01`"),
        ("2026-13-06", Dimension::Date, "`2026-06-13`"),
        ("2026-06", Dimension::Date, "`2026-06-01`"),
        ("1¾ in", Dimension::Length, "`1-3/4 in`"),
        ("1 ½ in", Dimension::Length, "`1-1/2 in`"),
        ("1–3/4 in", Dimension::Length, "`1-3/4 in`"),
        ("10,000 sq ft", Dimension::Area, "`10000 sq ft`"),
        ("3 business days", Dimension::Days, "`3 working days`"),
        ("2 gates", Dimension::Number, "`2`"),
        ("6 ft.", Dimension::Length, "`6 ft`"),
        ("400 m^2", Dimension::Area, "`400 m2`"),
        ("400 square metres", Dimension::Area, "`400 m2`"),
    ] {
        let said = refused(text, wanted);
        assert!(said.contains(write), "{text}: {said}");
    }
    // A day that the calendar does not have is reported as such.
    assert!(refused("2026-02-30", Dimension::Date).contains("the calendar has no 2026-02-30"));
}

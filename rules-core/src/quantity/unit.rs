//! The units that people write, each exact in tiny units.

use super::dimension::Dimension;
use serde::{Serialize, Serializer};

/// A unit: how it is written, and how many tiny units it is.
#[derive(Clone, Copy)]
pub struct Unit(&'static Row);

struct Row {
    /// As printed.
    symbol: &'static str,
    /// As printed after any figure but 1.
    plural: &'static str,
    /// Further ways to write it.
    spellings: &'static [&'static str],
    dimension: Dimension,
    /// Tiny units in this many units:
    numerator: u128,
    /// this many.
    denominator: u128,
    /// Digits after the point that a figure in this unit usually has.
    digits: u32,
}

const INCH: u128 = 25_400_000; // nm; exact by the international yard and pound agreement of 1959
const FOOT: u128 = 12 * INCH;
const GALLON: u128 = 231 * INCH * INCH * INCH;
const LITRE: u128 = 10_u128.pow(24);
const POUND: u128 = 453_592_370; // micrograms, exact by the same agreement

/// A unit that is the same in singular and plural.
const fn row(
    symbol: &'static str,
    spellings: &'static [&'static str],
    dimension: Dimension,
    (numerator, denominator): (u128, u128),
    digits: u32,
) -> Row {
    Row {
        symbol,
        plural: symbol,
        spellings,
        dimension,
        numerator,
        denominator,
        digits,
    }
}

/// A unit that is a word.
const fn word(
    (symbol, plural): (&'static str, &'static str),
    spellings: &'static [&'static str],
    dimension: Dimension,
    numerator: u128,
) -> Row {
    Row {
        symbol,
        plural,
        spellings,
        dimension,
        numerator,
        denominator: 1,
        digits: 0,
    }
}

macro_rules! units {
    ($($(#[$doc:meta])* $name:ident = $row:expr;)*) => {
        impl Unit {
            $($(#[$doc])* pub const $name: Self = Self(&$row);)*
            /// Every unit there is.
            pub const ALL: &'static [Self] = &[$(Self::$name),*];
        }
    };
}

units! {
    /// Millimetre.
    MILLIMETRE = row("mm", &["millimetre", "millimetres", "millimeter", "millimeters"], Dimension::Length, (1_000_000, 1), 0);
    /// Centimetre.
    CENTIMETRE = row("cm", &["centimetre", "centimetres", "centimeter", "centimeters"], Dimension::Length, (10_000_000, 1), 1);
    /// Decimetre.
    DECIMETRE = row("dm", &["decimetre", "decimetres", "decimeter", "decimeters"], Dimension::Length, (100_000_000, 1), 2);
    /// Metre.
    METRE = row("m", &["metre", "metres", "meter", "meters"], Dimension::Length, (10_u128.pow(9), 1), 2);
    /// Kilometre.
    KILOMETRE = row("km", &["kilometre", "kilometres", "kilometer", "kilometers"], Dimension::Length, (10_u128.pow(12), 1), 3);
    /// Inch.
    INCH = row("in", &["\"", "inch", "inches"], Dimension::Length, (INCH, 1), 2);
    /// Foot.
    FOOT = row("ft", &["'", "foot", "feet"], Dimension::Length, (FOOT, 1), 2);
    /// Yard.
    YARD = row("yd", &["yard", "yards"], Dimension::Length, (3 * FOOT, 1), 2);
    /// Square millimetre.
    SQUARE_MILLIMETRE = row("mm²", &["mm2", "sq mm"], Dimension::Area, (10_u128.pow(12), 1), 0);
    /// Square centimetre.
    SQUARE_CENTIMETRE = row("cm²", &["cm2", "sq cm"], Dimension::Area, (10_u128.pow(14), 1), 0);
    /// Square metre.
    SQUARE_METRE = row("m²", &["m2", "sq m"], Dimension::Area, (10_u128.pow(18), 1), 2);
    /// Hectare.
    HECTARE = row("ha", &["hectare", "hectares"], Dimension::Area, (10_u128.pow(22), 1), 4);
    /// Square inch.
    SQUARE_INCH = row("sq in", &["in2", "in²"], Dimension::Area, (INCH * INCH, 1), 1);
    /// Square foot.
    SQUARE_FOOT = row("sq ft", &["ft2", "ft²"], Dimension::Area, (FOOT * FOOT, 1), 1);
    /// Acre of 43,560 international square feet.
    ACRE = Row { digits: 3, ..word(("acre", "acres"), &["ac"], Dimension::Area, 43_560 * FOOT * FOOT) };
    /// Litre.
    LITRE = row("l", &["L", "litre", "litres", "liter", "liters"], Dimension::Volume, (LITRE, 1), 0);
    /// Cubic metre.
    CUBIC_METRE = row("m³", &["m3", "cu m"], Dimension::Volume, (1000 * LITRE, 1), 2);
    /// Cubic foot.
    CUBIC_FOOT = row("cu ft", &["ft3", "ft³"], Dimension::Volume, (FOOT * FOOT * FOOT, 1), 1);
    /// US gallon of 231 cubic inches.
    US_GALLON = row("gal", &["US gal", "gallon", "gallons", "US gallons"], Dimension::Volume, (GALLON, 1), 0);
    /// Imperial gallon of 4.54609 litres.
    IMPERIAL_GALLON = row("imp gal", &["imperial gallon", "imperial gallons"], Dimension::Volume, (454_609 * LITRE / 100_000, 1), 0);
    /// Volt.
    VOLT = row("V", &["volt", "volts"], Dimension::Voltage, (1_000_000, 1), 0);
    /// Kilovolt.
    KILOVOLT = row("kV", &["kilovolt", "kilovolts"], Dimension::Voltage, (1_000_000_000, 1), 1);
    /// Degree of arc.
    DEGREE = row("°", &["deg", "degree", "degrees"], Dimension::Angle, (10_u128.pow(9), 1), 1);
    /// Decibel.
    DECIBEL = row("dB", &["decibel", "decibels"], Dimension::Sound, (1_000_000, 1), 1);
    /// Decibel, A-weighted.
    DECIBEL_A = row("dB(A)", &["dBA", "dB (A)"], Dimension::Sound, (1_000_000, 1), 1);
    /// Litre per second.
    LITRE_A_SECOND = row("l/s", &["L/s"], Dimension::Flow, (LITRE, 1), 2);
    /// Cubic metre per hour.
    CUBIC_METRE_AN_HOUR = row("m³/h", &["m3/h"], Dimension::Flow, (1000 * LITRE, 3600), 1);
    /// US gallon per minute.
    GALLON_A_MINUTE = row("gal/min", &["US gal/min", "gpm"], Dimension::Flow, (GALLON, 60), 1);
    /// Watt.
    WATT = row("W", &["watt", "watts"], Dimension::Power, (1_000_000, 1), 0);
    /// Kilowatt.
    KILOWATT = row("kW", &["kilowatt", "kilowatts"], Dimension::Power, (1_000_000_000, 1), 2);
    /// Kilogram.
    KILOGRAM = row("kg", &["kilogram", "kilograms"], Dimension::Mass, (1_000_000, 1), 0);
    /// Tonne of 1000 kilograms.
    TONNE = row("t", &["tonne", "tonnes"], Dimension::Mass, (1_000_000_000, 1), 2);
    /// Pound: from micrograms to milligrams.
    POUND = row("lb", &["pound", "pounds"], Dimension::Mass, (POUND, 1000), 0);
    /// Kilogram per square metre.
    KILOGRAM_A_SQUARE_METRE = row("kg/m²", &["kg/m2"], Dimension::Load, (1_000_000, 1), 1);
    /// Pound per square foot: from micrograms per square nanometre to milligrams per square metre.
    POUND_A_SQUARE_FOOT = row("lb/sq ft", &["lb/ft2", "lb/ft²", "psf"], Dimension::Load, (POUND * 10_u128.pow(15), FOOT * FOOT), 1);
    /// Day.
    DAY = word(("day", "days"), &["d"], Dimension::Days, 1);
    /// Week.
    WEEK = word(("week", "weeks"), &[], Dimension::Days, 7);
    /// Calendar month.
    MONTH = word(("month", "months"), &[], Dimension::Months, 1000);
    /// Calendar year.
    YEAR = word(("year", "years"), &[], Dimension::Months, 12_000);
    /// A calendar day, written year-month-day.
    DATE = row("date", &[], Dimension::Date, (1, 1), 0);
    /// No unit: a plain number.
    ONE = row("", &[], Dimension::Number, (1_000_000_000, 1), 2);
    /// Percent.
    PERCENT = row("%", &["percent"], Dimension::Number, (10_000_000, 1), 1);
}

impl Unit {
    /// The unit with this spelling. Capitals matter in SI symbols, but not in words and customary units.
    pub fn find(spelling: &str) -> Option<Self> {
        let words = || spelling.split_whitespace();
        let is = |name: &str| name.split(' ').eq(words());
        let is_loosely = |name: &str| {
            loose(name) && name.eq_ignore_ascii_case(&words().collect::<Vec<_>>().join(" "))
        };
        let written = || {
            Self::ALL
                .iter()
                .filter(|unit| **unit != Self::DATE && **unit != Self::ONE)
        };
        // Nearly always the spelling is exact, and no words have to be split.
        let exact = written().find(|unit| unit.names().any(|name| name == spelling));
        exact
            .or_else(|| written().find(|unit| unit.names().any(is)))
            .or_else(|| written().find(|unit| unit.names().any(is_loosely)))
            .copied()
    }

    /// The known spelling that is closest to an unknown one, if any is close.
    pub fn close_to(spelling: &str) -> Option<&'static str> {
        let names = || {
            Self::ALL
                .iter()
                .filter(|unit| **unit != Self::DATE)
                .flat_map(|unit| unit.names())
        };
        let plain = in_usual_spelling(spelling);
        let same = |spelling: &str| names().find(|name| name.eq_ignore_ascii_case(spelling));
        let first_word = spelling
            .split(' ')
            .next()
            .filter(|first| *first != spelling);
        same(spelling)
            .or_else(|| same(&plain))
            .or_else(|| names().find(|name| name.len() > 2 && nearly(name, spelling)))
            .or_else(|| same(first_word?))
    }

    /// The unit to print an amount in when nobody wrote one.
    pub fn usual(dimension: Dimension) -> Self {
        match dimension {
            Dimension::Length => Self::METRE,
            Dimension::Area => Self::SQUARE_METRE,
            Dimension::Volume => Self::CUBIC_METRE,
            Dimension::Voltage => Self::VOLT,
            Dimension::Angle => Self::DEGREE,
            Dimension::Sound => Self::DECIBEL_A,
            Dimension::Flow => Self::LITRE_A_SECOND,
            Dimension::Power => Self::WATT,
            Dimension::Mass => Self::KILOGRAM,
            Dimension::Load => Self::KILOGRAM_A_SQUARE_METRE,
            Dimension::Days => Self::DAY,
            Dimension::Months => Self::MONTH,
            Dimension::Date => Self::DATE,
            Dimension::Number => Self::ONE,
        }
    }

    /// As printed after a figure of 1, or on its own.
    pub fn symbol(self) -> &'static str {
        self.0.symbol
    }

    /// As printed after any other figure.
    pub fn plural(self) -> &'static str {
        self.0.plural
    }

    /// What it is a unit of.
    pub fn dimension(self) -> Dimension {
        self.0.dimension
    }

    /// How many digits after the point a figure in this unit usually has.
    pub fn digits(self) -> u32 {
        self.0.digits
    }

    /// The unit in tiny units, as numerator and denominator.
    pub fn size(self) -> (u128, u128) {
        (self.0.numerator, self.0.denominator)
    }

    /// All ways to write it: the symbol, its plural, further spellings.
    pub fn names(self) -> impl Iterator<Item = &'static str> {
        [self.0.symbol, self.0.plural]
            .into_iter()
            .chain(self.0.spellings.iter().copied())
    }
}

/// Whether capitals do not matter in this spelling: it is a word, or a unit that cannot be taken for an SI symbol.
fn loose(name: &str) -> bool {
    const CUSTOMARY: [&str; 10] = [
        "ft", "in", "yd", "ac", "gal", "sq ft", "sq in", "cu ft", "us gal", "imp gal",
    ];
    CUSTOMARY.contains(&name)
        || (name.len() > 3 && name.chars().all(|c| c.is_ascii_alphabetic() || c == ' '))
}

/// Whether two spellings differ by one letter put in, left out or changed.
fn nearly(one: &str, two: &str) -> bool {
    let same = one
        .chars()
        .zip(two.chars())
        .take_while(|(a, b)| a == b)
        .count();
    let rest = |text: &str, from: usize| text.chars().skip(from).collect::<String>();
    let (one_rest, two_rest) = (rest(one, same), rest(two, same));
    let (one_next, two_next) = (rest(one, same + 1), rest(two, same + 1));
    one_next == two_next || one_rest == two_next || one_next == two_rest
}

impl Unit {
    /// Working days. They are counted on a calendar, which only steps in time have. No other amount can be written in
    /// them, so the unit is not in [`ALL`](Self::ALL).
    pub const WORKING_DAY: Self = Self(&word(
        ("working day", "working days"),
        &[],
        Dimension::Days,
        1,
    ));
}

impl PartialEq for Unit {
    fn eq(&self, other: &Self) -> bool {
        self.symbol() == other.symbol()
    }
}

impl Eq for Unit {}

impl std::fmt::Debug for Unit {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "Unit({})", self.symbol())
    }
}

impl Serialize for Unit {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(self.symbol())
    }
}

/// `ft.` as `ft`, `m^2` as `m2`, `square metres` as `m2`.
fn in_usual_spelling(spelling: &str) -> String {
    let plain = spelling.replace(['.', '^'], "").to_lowercase();
    let raised = [("square ", "2"), ("cubic ", "3")];
    let found = raised.iter().find_map(|(word, power)| {
        let unit = Unit::find(plain.strip_prefix(word)?)?;
        Some(format!("{}{power}", unit.symbol()))
    });
    found.unwrap_or(plain)
}

//! The names of a lot's sides, and the reasons for them.

use std::fmt;

use crate::plan::figure::Point;

/// What a side of a lot faces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Face {
    /// The street that gives the lot its front.
    Front,
    /// A neighbour beside it.
    Side,
    /// The land behind it.
    Rear,
    /// A second street, beside it.
    StreetSide,
    /// Water.
    Shore,
    /// An alley.
    Alley,
}

/// Why a name is proposed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Why {
    /// It runs along the only street.
    OnlyStreet,
    /// It runs along the street of the lot's address.
    Address,
    /// It is the shortest line along a street.
    ShortestFrontage,
    /// It is the longest line along a street.
    LongestFrontage,
    /// A lot between two streets has a front on both.
    BothStreets,
    /// It runs along a second street.
    SecondStreet,
    /// Behind the strip that leads to the street, it faces that street.
    FlagFront,
    /// It runs along an alley.
    AlongAlley,
    /// It runs along water.
    AlongWater,
    /// It is opposite the front, farther from any street than the others.
    Farthest,
    /// It joins the front.
    JoinsFront,
    /// It is neither front nor rear.
    Neither,
    /// It is as far from the street as another one: the applicant may say which is the rear.
    Tie,
    /// No street reaches the lot.
    NoStreet,
}

/// A proposed name for one side.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Proposal {
    /// The index of the side.
    pub side: usize,
    /// Its name; `None` where a person has to choose.
    pub face: Option<Face>,
    /// Why.
    pub why: Why,
}

/// What runs beside the lot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Beside {
    /// A street.
    Street,
    /// The street of the lot's address.
    Address,
    /// An alley.
    Alley,
    /// A shore.
    Water,
}

/// A line that runs beside the lot: a road's edge or its centreline, a shore.
#[derive(Debug, Clone, PartialEq)]
pub struct Beyond {
    /// What it is.
    pub what: Beside,
    /// Where it runs.
    pub line: Vec<Point>,
    /// A side no farther away than this, in nanometres, runs along it.
    pub reach: i64,
}

/// How an authority names sides where usage differs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Naming {
    /// On a corner lot without an address, the front is the longest line along a street, not the shortest.
    pub longest_is_front: bool,
    /// Every line along a street is a front.
    pub every_street_is_front: bool,
    /// A corner lot has no rear line.
    pub corner_without_rear: bool,
}

impl Naming {
    /// The rule of most ordinances: the shortest line is the front, the other one a street side, and there is a rear.
    pub const COMMON: Naming = Naming {
        longest_is_front: false,
        every_street_is_front: false,
        corner_without_rear: false,
    };
}

impl fmt::Display for Why {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(match self {
            Why::OnlyStreet => "it runs along the only street beside the lot",
            Why::Address => "it runs along the street of the lot's address",
            Why::ShortestFrontage => "of the lines along streets it is the shortest; some authorities let the owner choose",
            Why::LongestFrontage => "of the lines along streets it is the longest",
            Why::BothStreets => "the lot lies between two streets, and has a front on both; ask whether one of them may count as the rear",
            Why::SecondStreet => "it runs along a second street; some authorities call this a front as well",
            Why::FlagFront => "it faces the street, behind the strip that leads there",
            Why::AlongAlley => "it runs along an alley",
            Why::AlongWater => "it runs along the water",
            Why::Farthest => "it lies opposite the front, farther from the street than any other",
            Why::JoinsFront => "it joins the front line",
            Why::Neither => "it is neither at the front nor the farthest from the street",
            Why::Tie => "another line lies as far from the street: say which of them is the rear, and ask the office",
            Why::NoStreet => "no street reaches the lot: ask the office which line is the front",
        })
    }
}

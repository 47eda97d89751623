//! What is wrong with an amount as written.

use super::dimension::Dimension;

/// What is wrong with an amount as written, for the person who wrote it.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{sentence}")]
pub struct QuantityFault {
    /// What is wrong, as one sentence without its full stop.
    pub sentence: String,
    /// What would be right, as one sentence without its full stop.
    pub help: String,
}

impl QuantityFault {
    pub(super) fn new(sentence: impl Into<String>, help: impl Into<String>) -> Self {
        Self {
            sentence: sentence.into(),
            help: help.into(),
        }
    }
}

impl Dimension {
    /// The dimension in words, with its article: `a length`.
    pub fn words(self) -> &'static str {
        match self {
            Self::Length => "a length",
            Self::Area => "an area",
            Self::Volume => "a volume",
            Self::Voltage => "a voltage",
            Self::Angle => "an angle",
            Self::Sound => "a sound level",
            Self::Flow => "a flow",
            Self::Power => "a power",
            Self::Mass => "a mass",
            Self::Load => "a load on an area",
            Self::Days => "a number of days",
            Self::Months => "a number of months",
            Self::Date => "a date",
            Self::Number => "a plain number",
        }
    }

    /// Examples of how such an amount is written.
    pub fn example(self) -> &'static str {
        match self {
            Self::Length => "`3.2 m`, `1200 mm` or `4 ft 6 in`",
            Self::Area => "`32 m2` or `340 sq ft`",
            Self::Volume => "`45 m3` or `12000 gal`",
            Self::Voltage => "`750 V` or `15 kV`",
            Self::Angle => "`12.5 deg`",
            Self::Sound => "`45 dB(A)`",
            Self::Flow => "`2.5 l/s` or `9 m3/h`",
            Self::Power => "`750 W` or `1.1 kW`",
            Self::Mass => "`850 kg`, `12 t` or `2000 lb`",
            Self::Load => "`220 kg/m2` or `45 lb/sq ft`",
            Self::Days => "`14 days` or `2 weeks`",
            Self::Months => "`2 months` or `1 year`",
            Self::Date => "`2026-03-01`",
            Self::Number => "`0.4`, `40 %` or `1:2`",
        }
    }

    /// The largest amount that is accepted. Anything larger is taken for a slip of the pen.
    pub(super) fn largest(self) -> i128 {
        10_i128.pow(match self {
            Self::Length => 18,                             // a million kilometres
            Self::Area => 30,                               // a million square kilometres
            Self::Volume => 36,                             // a cubic kilometre
            Self::Voltage | Self::Power | Self::Mass => 18, // 10^12 volts, watts
            Self::Angle => 15,                              // a million degrees
            Self::Sound => 10,                              // 10,000 decibels
            Self::Flow => 33,                               // a million cubic metres per second
            Self::Load => 15,                               // a million tonnes per square metre
            Self::Days | Self::Date => 7,                   // 27 thousand years
            Self::Months => 9,                              // a million months
            Self::Number => 21,                             // 10^12
        })
    }
}

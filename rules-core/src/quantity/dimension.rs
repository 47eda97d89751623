//! The dimension of an amount: a length, an area, a date.

use serde::{Deserialize, Serialize};

/// The dimension of an amount. Each is counted in a tiny unit of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Dimension {
    /// A length, in nanometres.
    Length,
    /// An area, in square nanometres.
    Area,
    /// A volume, in cubic nanometres.
    Volume,
    /// A voltage, in microvolts.
    Voltage,
    /// An angle, in billionths of a degree.
    Angle,
    /// A sound level or a sound power level, in millionths of a decibel (A-weighted).
    Sound,
    /// A flow, in cubic nanometres per second.
    Flow,
    /// A power, in microwatts.
    Power,
    /// A mass, in milligrams.
    Mass,
    /// A load on an area, in milligrams per square metre.
    Load,
    /// A calendar span in days.
    Days,
    /// A calendar span in months, in thousandths of a month.
    Months,
    /// A calendar day, in days since 1970-01-01.
    Date,
    /// A plain number, a share or a slope, in billionths.
    Number,
}

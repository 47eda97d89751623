//! Easter Sunday by the Gregorian calendar: the movable holidays of many countries are counted from it.

use super::CalendarDate;

/// The day number of Easter Sunday in a year.
///
/// The algorithm that an anonymous reader sent to *Nature* (20 April 1876), as printed in Jean Meeus, *Astronomical
/// Algorithms* (2nd edition 1998), chapter 8.
pub fn easter(year: i128) -> i128 {
    let golden = year.rem_euclid(19);
    let (century, of_century) = (year.div_euclid(100), year.rem_euclid(100));
    let (d, e) = (century / 4, century % 4);
    let f = (century + 8) / 25;
    let g = (century - f + 1) / 3;
    let h = (19 * golden + century - d - g + 15).rem_euclid(30);
    let (i, k) = (of_century / 4, of_century % 4);
    let l = (32 + 2 * e + 2 * i - h - k).rem_euclid(7);
    let m = (golden + 11 * h + 22 * l) / 451;
    let count = h + l - 7 * m + 114;
    let (month, day) = (count / 31, count % 31 + 1);
    let sunday = CalendarDate { year, month, day };
    sunday.day_number().unwrap_or_default()
}

//! The map of where a pool could go, held against an exhaustive search, on as many lots as you like.
//!
//! `cargo run --release -p outside-checks --bin placing -- --seeds 1..301 --grid 200 --turns 4 --points 1000` prints a line
//! for each lot and then what was found in all. It ends with 1 where anything was wrong.

use std::ops::Range;

use outside_checks::placing::{Effort, Tally, compare, lots::Case};

fn main() {
    let mut effort = Effort {
        grid: 200,
        finest: 100,
        turns: 1,
        points: 100,
    };
    let mut seeds: Range<u64> = 1..31;
    let said: Vec<String> = std::env::args().skip(1).collect();
    for pair in said.chunks(2) {
        let [name, value] = pair else {
            panic!("each option has a value");
        };
        match name.as_str() {
            "--seeds" => seeds = range(value),
            "--grid" => effort.grid = value.parse().expect("millimetres"),
            "--finest" => effort.finest = value.parse().expect("millimetres"),
            "--turns" => effort.turns = value.parse().expect("1 or 4"),
            "--points" => effort.points = value.parse().expect("a number"),
            other => panic!("there is no option {other}"),
        }
    }
    let mut tally = Tally::default();
    for seed in seeds {
        let case = Case::new(seed);
        let (good, sure) = (tally.good, tally.sure);
        compare(&case, effort, &mut tally);
        let (good, sure) = (tally.good - good, tally.sure - sure);
        println!("{}: {good} good places, {sure} sure ones judged", case.name);
    }
    let Tally {
        maps,
        with_room,
        judged,
        good,
        sure,
        wrong,
    } = tally;
    println!(
        "{maps} maps, {with_room} with room: {judged} places judged by the search, {good} good, {sure} in sure cells"
    );
    wrong.iter().for_each(|wrong| println!("WRONG {wrong}"));
    std::process::exit(i32::from(!wrong.is_empty()));
}

fn range(text: &str) -> Range<u64> {
    let (from, to) = text.split_once("..").expect("first..last plus one");
    let number = |text: &str| text.parse().expect("a seed");
    number(from)..number(to)
}

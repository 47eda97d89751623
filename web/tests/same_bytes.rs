//! The same report, byte for byte, natively and in a browser, for a thousand random plans, and for a hundred on which
//! every way of measuring occurs.
//!
//! Both runs are held against one list of fingerprints. `BLESS=1` writes the list anew from the native run; the browser
//! then says whether it agrees.

use outside_checks::random_plans;
use siting_web::check;

const RULES: &str = include_str!("../../rulesets/eldermere/rules.yaml");
const EXPECTED: &str = include_str!("same_bytes.txt");
const PLANS: u64 = 1000;
const MEASURED: u64 = 100;

/// The 64-bit FNV-1a fingerprint (Fowler, Noll and Vo; offset and prime as in their published table).
fn fingerprint(text: &str) -> u64 {
    text.bytes().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    })
}

/// A line for each plan: its seed, whether it was judged or refused, how long the answer is, and its fingerprint.
fn fingerprints() -> String {
    let line = |name: &str, seed: u64, plan: &str, rules: &str| {
        let answer = check(plan, rules);
        let how = if answer.contains("\"report\"") {
            "judged"
        } else {
            "refused"
        };
        format!(
            "{name}{seed} {how} {} {:016x}\n",
            answer.len(),
            fingerprint(&answer)
        )
    };
    let plain = (0..PLANS).map(|seed| line("", seed, &random_plans::plan(seed), RULES));
    let measured = (0..MEASURED).map(|seed| {
        let plan = random_plans::measures::plan(seed);
        line("measured-", seed, &plan, random_plans::measures::RULES)
    });
    plain.chain(measured).collect()
}

#[cfg_attr(target_arch = "wasm32", wasm_bindgen_test::wasm_bindgen_test)]
#[cfg_attr(not(target_arch = "wasm32"), test)]
fn a_thousand_plans_give_the_same_bytes() {
    let found = fingerprints();
    #[cfg(not(target_arch = "wasm32"))]
    if std::env::var_os("BLESS").is_some() {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/same_bytes.txt");
        std::fs::write(path, &found).expect("the list can be written");
        return;
    }
    let judged = found
        .lines()
        .filter(|line| line.contains(" judged "))
        .count();
    assert!(
        judged >= 990,
        "only {judged} of the random plans could be judged"
    );
    let differ = found
        .lines()
        .zip(EXPECTED.lines())
        .find(|(found, expected)| found != expected);
    assert_eq!(differ, None, "the first plan whose report differs");
    assert_eq!(found.lines().count(), EXPECTED.lines().count());
}

//! Each call that the page makes, natively and in the browser: what comes back is JSON of the form that is promised.

use rules_core::ruleset::say::Sort;
use serde_json::Value;
use siting_web::{check, faces, follow, found, rule_sets, speak};

use crate::drags::whole;
use crate::held::{answer, asked, begin, demo, draw, edit, handles, held_plan, hold, steps};

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

pub fn json(text: &str) -> Value {
    serde_json::from_str(text).expect("an answer in JSON")
}

/// A plan of which nothing is known yet.
pub(crate) const BLANK: &str = "plan: p\ntitle: P\nunit: m\n";

pub fn rules(id: &str) -> String {
    siting_rulesets::rules(id)
        .expect("a bundled rule set")
        .to_owned()
}

#[test]
fn the_rule_sets_are_listed_with_what_they_say_of_themselves() {
    let sets = json(&rule_sets());
    let sets = sets.as_array().expect("a list");
    assert!(sets.len() > 20, "{}", sets.len());
    let eldermere = sets.iter().find(|set| set["id"] == "eldermere");
    let eldermere = eldermere.expect("Eldermere is among them");
    assert_eq!(eldermere["title"], "Eldermere, private pools");
    assert_eq!(eldermere["authority"], "Eldermere building office");
    assert_eq!(eldermere["has_home"], true);
    for set in sets {
        let id = set["id"].as_str().expect("a name");
        assert!(found(&rules(id), "").faults.is_empty(), "{id}");
        assert_eq!(
            set["has_home"],
            siting_rulesets::named(id).is_some_and(|set| set.home.is_some()),
            "{id}"
        );
        assert!(!set["title"].as_str().expect("a title").is_empty(), "{id}");
    }
    assert!(!siting_web::use_rules("nowhere") && !siting_web::open_home("nowhere", true));
}

#[test]
fn the_home_is_judged_as_its_file_is() {
    let from_yaml = check(siting_rulesets::DEMO_PLAN, &rules("eldermere"));
    let from_json = check(&demo(), &rules("eldermere"));
    let [yaml, json] = [&from_yaml, &from_json].map(|text| json(text));
    assert_eq!(yaml["report"]["counts"], json["report"]["counts"]);
    assert_eq!(yaml["report"]["verdict"]["word"], "does-not-comply");
    assert_eq!(yaml["report"]["verdict"], json["report"]["verdict"]);
}

#[test]
fn a_rule_set_that_builds_on_a_bundled_one_is_judged() {
    let sets = json(&rule_sets());
    let on_others = |set: &&Value| set["builds_on"].as_array().is_some_and(|b| !b.is_empty());
    let layered: Vec<&Value> = sets.as_array().unwrap().iter().filter(on_others).collect();
    assert!(!layered.is_empty());
    // The answers are those to Eldermere's own questions, and elsewhere the letter is one for each building. The order of a
    // lot's corners counts, so the text is changed.
    let demo = demo();
    let (before, rest) = demo.split_once("\"answers\": {").expect("it has answers");
    let (_, after) = rest.split_once("}, ").expect("and something after them");
    let home = format!("{before}{after}").replacen(", \"engineer-letter\": \"in-hand\"", "", 1);
    for set in layered {
        let answer = json(&check(
            &home.to_string(),
            &rules(set["id"].as_str().unwrap()),
        ));
        assert!(answer["report"]["rules"].is_array(), "{answer}");
    }
}

#[test]
fn texts_that_say_nothing_are_refused_both_at_once() {
    let answer = json(&check("", ""));
    assert_eq!(answer["refused"]["plan"][0]["code"], "empty-file");
    assert_eq!(
        answer["refused"]["rules"][0]["faults"][0]["code"],
        "empty-file"
    );
}

#[test]
fn a_document_goes_to_yaml_and_back_as_it_was() {
    assert!(siting_web::open_home("eldermere", true));
    let (home, file) = (held_plan(), siting_web::file());
    siting_web::begin_anew();
    assert_ne!(held_plan(), home);
    siting_web::own_rules("", "");
    assert_eq!(json(&siting_web::open(&file))["rules"], json("[]"));
    assert_eq!(held_plan(), home);
    assert_eq!(siting_web::rules_name().as_deref(), Some("eldermere"));
    let other = file.replace("rules: [eldermere]", "rules: [hazelbrook]");
    assert_eq!(json(&siting_web::open(&other))["rules"][0], "hazelbrook");
    let broken = json(&siting_web::open("a: [1"));
    assert_eq!(broken["refused"]["plan"][0]["code"], "bracket");
    assert_eq!(held_plan(), home, "what cannot be opened changes nothing");
}

#[test]
fn an_empty_plan_is_asked_for_its_lot_and_its_pool() {
    let answer = json(&check(BLANK, &rules("eldermere")));
    let said = answer["refused"]["plan"].to_string();
    assert!(said.contains("`lot`") && said.contains("`pool`"), "{said}");
}

#[test]
fn the_faults_of_a_rule_file_name_their_lines() {
    let spoilt = rules("eldermere").replace("at-least: 6 m", "at-leest: 6 m");
    let found = found(&spoilt, "");
    let slip = |row: &&siting_web::FileRow| row.row.underlined.as_deref() == Some("at-leest");
    let fault = found.faults.iter().find(slip);
    let fault = fault.expect("the slip is among them");
    assert_eq!(fault.file, None);
    let line = fault.row.line.expect("a line");
    assert!(spoilt.lines().nth(line - 1).unwrap().contains("at-leest"));
    assert!(found.said.is_none() && found.rules.is_none() && found.cases.tried.is_empty());
}

#[test]
fn a_rule_file_is_read_back_in_sentences() {
    let found = found(&rules("eldermere"), "");
    let back = found.said.expect("a read-back");
    let mut front = back.group(Sort::Rules).iter();
    let front = front.find(|rule| rule.id == "front-line");
    let front = front.expect("the rule about the front line");
    assert_eq!(front.clause.as_deref(), Some("By-law 7, s. 10(1)"));
    let text = front.lines[0].sentence();
    assert!(text.contains("6 m"), "{text}");
}

#[test]
fn cases_are_tried() {
    let (rules, cases) = (
        rules("barrier-model"),
        siting_rulesets::cases("barrier-model"),
    );
    let cases = cases.expect("it has cases");
    let came = found(&rules, cases).cases;
    assert!(!came.tried.is_empty() && !came.shown.is_empty());
    assert!(came.tried.iter().all(|case| case.wrong.is_empty()));
    let upset = found(&rules, &cases.replacen("pass", "fail", 40)).cases;
    assert!(upset.tried.iter().any(|case| !case.wrong.is_empty()));
    assert!(!found(&rules, "cases: 3").cases.faults.is_empty());
}

#[test]
fn steps_have_days() {
    let answer = json(&steps(&demo(), &rules("eldermere"), "2026-03-02"));
    assert!(
        answer["steps"].to_string().contains("2026-03-02"),
        "{answer}"
    );
    let answer = json(&steps(&demo(), &rules("eldermere"), "yesterday"));
    assert!(answer["wrong"].as_str().unwrap().contains("yesterday"));
    assert!(json(&steps(BLANK, "", "2026-03-02"))["refused"].is_object());
}

#[test]
fn steps_have_days_when_the_plan_holds_answers_for_other_rules() {
    hold(&demo(), &rules("eldermere"));
    siting_web::say("answers.only-elsewhere", "yes");
    let answer = json(&siting_web::steps("2026-03-02"));
    let days = answer["steps"]["steps"].as_array().expect("steps");
    assert!(
        !days.is_empty() && days[0]["earliest"] == "2026-03-02",
        "{answer}"
    );
}

#[test]
fn steps_are_in_the_language_of_the_page() {
    let all = |language: &str| {
        speak(language);
        let answer = json(&steps(&demo(), &rules("norway"), "2026-03-02"));
        speak("en");
        let named = answer["steps"]["steps"]
            .as_array()
            .cloned()
            .unwrap_or_default();
        named
            .iter()
            .map(|step| step["what"].to_string())
            .collect::<Vec<_>>()
    };
    let [english, norwegian] = [all("en"), all("nb")];
    assert!(!english.is_empty() && english.len() == norwegian.len());
    assert_ne!(english, norwegian);
}

#[test]
fn the_plan_is_drawn() {
    let svg = draw(&demo(), &rules("eldermere"), r#"{"shade": true}"#);
    assert!(svg.starts_with("<svg ") && svg.ends_with("</svg>"), "{svg}");
    for id in ["pool", "house", "tank", "garden-gate", "rear"] {
        assert!(svg.contains(&format!("data-path=\"{id}\"")), "{id}");
    }
    assert!(svg.contains("data-rule=\"rear-line\""));
    assert!(json(&draw(BLANK, &rules("eldermere"), "{}"))["refused"].is_object());
    assert!(json(&draw(&demo(), &rules("eldermere"), "[1]"))["wrong"].is_string());
}

#[test]
fn an_answer_is_what_check_and_draw_give() {
    let (plan, rules) = (demo(), rules("eldermere"));
    let options = r#"{"selected": "rear-line", "thing": "pool"}"#;
    let found = json(&answer(&plan, &rules, options));
    assert_eq!(found["report"], json(&check(&plan, &rules))["report"]);
    assert_eq!(whole(&found["drawing"]), draw(&plan, &rules, options));
    assert_eq!(found["left_out"], json("[]"));
    assert!(json(&answer(BLANK, "", "{}"))["refused"].is_object());
    assert!(json(&answer(&plan, &rules, "[1]"))["wrong"].is_string());
}

/// What Eldermere asks for itself is no fault under other rules: it is not looked at, and told.
#[test]
fn a_plan_drawn_for_other_rules_is_fitted() {
    let rules = rules("norway");
    assert!(json(&check(&demo(), &rules))["refused"]["plan"].is_array());
    let found = json(&answer(&demo(), &rules, "{}"));
    assert!(found["report"]["rules"].is_array(), "{found}");
    let left_out = found["left_out"].as_array().expect("a list");
    assert!(!left_out.is_empty());
    let answers = left_out.iter().filter_map(Value::as_str);
    assert!(
        answers.clone().all(|path| path.starts_with("answers.")),
        "{left_out:?}"
    );
    assert!(draw(&demo(), &rules, "{}").starts_with("<svg "));
    let wish = r#"{"move": {"path": "pool", "dx": 1, "dy": 0}}"#;
    assert_eq!(begin(&demo(), &rules, "{}"), "");
    assert!(json(&follow(wish))["verdict"].is_object());
}

#[test]
fn the_rules_in_use_are_those_that_were_given() {
    let (plan, rules) = (demo(), rules("eldermere"));
    let laxer = rules.replace("at-least: 6 m", "at-least: 5.5 m");
    assert_ne!(
        draw(&plan, &rules, r#"{"shade": true}"#),
        draw(&plan, &laxer, r#"{"shade": true}"#)
    );
}

#[test]
fn what_the_rules_ask_for_is_told_with_why() {
    let answer = json(&asked(&rules("eldermere")));
    let kinds = answer["kinds"].as_array().expect("a list");
    let gate = kinds
        .iter()
        .find(|kind| kind["id"] == "gate")
        .expect("gates are asked for");
    assert_eq!(gate["number"], "many");
    assert_eq!(
        gate["why"][0]["title"],
        "The barrier closes all the way round"
    );
    let latch = gate["facts"].as_array().unwrap().iter();
    let latch = latch
        .clone()
        .find(|fact| fact["id"] == "latch-height")
        .expect("its latch");
    assert_eq!(
        (&latch["answer"], &latch["unit"]),
        (&json("\"length\""), &json("\"m\""))
    );
    assert_eq!(answer["questions"][0]["id"], "plan-sets-distance");
    assert_eq!(answer["dates"][0]["id"], "applied");
    assert!(json(&asked(""))["refused"].is_object());
}

#[test]
fn a_change_changes_the_plan() {
    edit(
        &demo(),
        r#"{"move": {"path": "pool", "dx": 1, "dy": -0.5}}"#,
    );
    let moved = held_plan();
    assert_eq!(
        json(&moved)["pool"]["water"]["rectangle"]["at"],
        json("[3.2, 20.2]")
    );
    edit(&moved, r#"{"move": {"path": "pool", "dx": -1, "dy": 0.5}}"#);
    assert_eq!(json(&held_plan()), json(&demo()));
    siting_web::undo();
    assert_eq!(held_plan(), moved);
    siting_web::redo();
    edit(BLANK, r#"{"lot": {"width": "24 m", "depth": "80 ft"}}"#);
    let lot = held_plan();
    assert_eq!(
        json(&lot)["lot"]["corners"]["ne"],
        json("[\"24 m\", \"80 ft\"]")
    );
    let pool = edit(
        &lot,
        r#"{"add": {"kind": "pool", "outline": "water", "shape": "area"}}"#,
    );
    assert_eq!(json(&pool)["id"], "pool");
    assert!(
        json(&edit(
            &demo(),
            r#"{"move": {"path": "moon", "dx": 1, "dy": 1}}"#
        ))["wrong"]
            .is_string()
    );
    assert!(json(&edit(&demo(), "{}"))["wrong"].is_string());
}

#[test]
fn a_lot_in_sides_says_by_how_much_it_does_not_close() {
    let wanted = r#"{"lot": {"sides": [{"length": "30 m"}, {"length": "40 m"}, {"length": "30 m"}, {"length": "39 m"}]}}"#;
    let answer = json(&edit(BLANK, wanted));
    assert_eq!(answer["closing"], 1000);
}

/// A lot that was laid out by its corners gets a proposal for each side, once the plan says where the road is.
#[test]
fn the_sides_of_a_lot_get_a_proposal() {
    let corners = r#"{"lot": {"corners": [["0", "0"], ["30", "0"], ["30", "40"], ["0", "40"]]}}"#;
    edit(&format!("{BLANK}pool: {{id: pool}}\n"), corners);
    let plan = |beyond: &str| {
        siting_web::say("lot.sides.0.beyond", beyond);
        json(&faces())
    };
    let named = |list: &serde_json::Value| -> Vec<serde_json::Value> {
        let sides = list.as_array().expect("a list");
        sides.iter().map(|side| side["faces"].clone()).collect()
    };
    assert_eq!(named(&plan("road")), ["front", "side", "rear", "side"]);
    let nowhere = plan("neighbour-lot");
    assert!(named(&nowhere).iter().all(|face| face.is_null()));
    assert_eq!(
        nowhere[0]["why"],
        "No street reaches the lot: ask the office which line is the front."
    );
    siting_web::begin_anew();
    assert_eq!(faces(), "[]");
}

#[test]
fn handles_go_into_the_drawing() {
    let found = handles(&demo(), "pool:water");
    let list = json(&found);
    assert_eq!(
        list[0],
        json(r#"{"what": "corner", "index": 0, "at": [2200, 20700]}"#)
    );
    assert_eq!(list.as_array().map(Vec::len), Some(9));
    let svg = draw(&demo(), &rules("eldermere"), r#"{"thing": "pool"}"#);
    assert_eq!(svg.matches("data-handle=").count(), 9);
    // Millimetres, y down: the drawing's coordinates are those of the file.
    assert!(svg.contains("cx=\"2200\" cy=\"-20700\""), "{svg}");
    assert_eq!(handles(&demo(), "nobody"), "[]");
}

/// A side of the lot goes where the lot's corners go: these are what it is taken hold of by.
#[test]
fn a_side_of_the_lot_is_taken_hold_of_by_the_corners() {
    let svg = draw(&demo(), &rules("eldermere"), r#"{"thing": "rear"}"#);
    assert_eq!(svg.matches("data-handle=\"corner\"").count(), 4);
    assert_eq!(handles(&demo(), "rear"), handles(&demo(), "lot"));
}

/// The page says once in which language it is; from then on the rule sets answer in it.
#[test]
fn the_library_speaks_the_language_of_the_page() {
    let title = || {
        let sets = json(&rule_sets());
        let all = sets.as_array().expect("a list");
        let norway = all.iter().find(|set| set["id"] == "norway");
        norway.expect("Norway")["title"].as_str().map(str::to_owned)
    };
    let report = || json(&answer(&demo(), &rules("norway"), "{}"))["report"].clone();
    let title_of_rule = |report: &Value| {
        let rules = report["rules"].as_array().expect("rules");
        let rule = rules.iter().find(|rule| rule["id"] == "plan-boundary");
        rule.expect("the rule")["title"].clone()
    };
    let english = report();
    assert_eq!(english["language"], "en");
    speak("nb");
    assert_eq!(
        title().as_deref(),
        Some("Norge, private svømmebasseng, nasjonale regler")
    );
    let norwegian = report();
    assert_eq!(norwegian["language"], "nb");
    assert_eq!(norwegian["rule-set"]["title"], title().expect("a title"));
    assert_ne!(title_of_rule(&norwegian), title_of_rule(&english));
    assert_ne!(norwegian["disclaimer"], english["disclaimer"]);
    assert_eq!(norwegian["counts"], english["counts"]);
    speak("en");
    assert_eq!(report(), english);
}

/// A fault of the plan says where it stands, so that the page can show it beside its field.
#[test]
fn a_fault_has_the_path_of_its_field() {
    hold(&demo(), &rules("eldermere"));
    siting_web::say_figure("pool.depth", "about my height", "m");
    let found = json(&siting_web::answer("{}"));
    let row = &found["refused"]["plan"][0];
    assert_eq!(row["path"], "pool.depth", "{row}");
    siting_web::speak("nb");
    siting_web::say_figure("pool.depth", "1,4", "m");
    siting_web::speak("en");
    assert_eq!(json(&held_plan())["pool"]["depth"], "1.4 m");
}

/// Opening a link restores the plan and its rules.
#[test]
fn a_link_goes_there_and_back() {
    assert!(siting_web::open_home("eldermere", true));
    let (home, link) = (held_plan(), siting_web::link());
    siting_web::begin_anew();
    assert_eq!(siting_web::open_link(&link), "");
    assert_eq!(held_plan(), home);
    let unknown = link.replace("\"eldermere\"}", "\"nowhere\"}");
    assert_eq!(siting_web::open_link(&unknown), "missing nowhere");
    for broken in ["", "[]", "{\"plan\": 3}"] {
        assert_eq!(siting_web::open_link(broken), "broken");
    }
}

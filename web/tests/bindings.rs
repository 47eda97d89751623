//! Each call that the page makes, natively and in the browser: what comes back is JSON of the form that is promised.

use serde_json::Value;
use siting_web::{check, faces, faults, follow, read_back, rule_sets, speak, try_cases};

use crate::held::{answer, asked, begin, demo, draw, edit, handles, held_plan, hold, steps};

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

fn json(text: &str) -> Value {
    serde_json::from_str(text).expect("an answer in JSON")
}

/// A plan of which nothing is known yet.
const BLANK: &str = "plan: p\ntitle: P\nunit: m\n";

fn rules(id: &str) -> String {
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
        assert_eq!(json(&faults(&rules(id)))["faults"], json("[]"), "{id}");
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
    let answer = json(&faults(&spoilt));
    let found = answer["faults"].as_array().expect("a list").iter();
    let fault = found
        .clone()
        .find(|fault| fault["underlined"] == "at-leest");
    let fault = fault.expect("the slip is among them");
    assert_eq!(fault["file"], Value::Null);
    let line = usize::try_from(fault["line"].as_u64().expect("a line")).expect("a small number");
    assert!(spoilt.lines().nth(line - 1).unwrap().contains("at-leest"));
    assert!(json(&read_back(&spoilt))["refused"]["rules"].is_array());
    assert!(json(&try_cases(&spoilt, ""))["refused"]["rules"].is_array());
}

#[test]
fn a_rule_file_is_read_back_in_sentences() {
    let answer = json(&read_back(&rules("eldermere")));
    let groups = answer["groups"].as_array().expect("groups");
    let rules = groups.iter().find(|group| group["title"] == "Rules");
    let rules = &rules.expect("rules")["rules"];
    let front = rules.as_array().unwrap().iter();
    let front = front.clone().find(|rule| rule["id"] == "front-line");
    let front = front.expect("the rule about the front line");
    assert_eq!(front["clause"], "By-law 7, s. 10(1)");
    let text = front["lines"][0]["text"].as_str().expect("a sentence");
    assert!(text.contains("6 m"), "{text}");
}

#[test]
fn cases_are_tried() {
    let (rules, cases) = (
        rules("barrier-model"),
        siting_rulesets::cases("barrier-model"),
    );
    let cases = cases.expect("it has cases");
    let answer = json(&try_cases(&rules, cases));
    let tried = answer["cases"].as_array().expect("a list");
    assert!(!tried.is_empty());
    assert!(tried.iter().all(|case| case["wrong"] == json("[]")));
    assert!(answer["shown"][0]["passing"].is_boolean());
    let upset = cases.replacen("pass", "fail", 40);
    let answer = json(&try_cases(&rules, &upset));
    let wrong = |case: &Value| case["wrong"].as_array().is_some_and(|w| !w.is_empty());
    assert!(answer["cases"].as_array().unwrap().iter().any(wrong));
    assert!(json(&try_cases(&rules, "cases: 3"))["faults"][0]["message"].is_string());
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

/// The layers of a drawing, one on the other.
fn whole(drawing: &Value) -> String {
    let layers = drawing["layers"].as_array().expect("a list").iter();
    let layers: String = layers
        .map(|layer| layer.as_str().expect("a text"))
        .collect();
    format!(
        "{}{layers}</svg>",
        drawing["open"].as_str().expect("a text")
    )
}

/// What a step of a drag tells, and all that comes of the plans before and after it.
struct Step {
    told: Value,
    before: Value,
    after: Value,
}

impl Step {
    fn taken(rules: &str, options: &str, wish: &str) -> Self {
        let (plan, rules) = (demo(), self::rules(rules));
        assert_eq!(begin(&plan, &rules, options), "");
        let told = json(&follow(wish));
        // The text as it stands: the order of a lot's corners counts.
        edit(&plan, wish);
        let moved = held_plan();
        let [before, after] = [&plan, &moved].map(|plan| json(&answer(plan, &rules, options)));
        assert!(after["report"].is_object(), "{after}");
        Self {
            told,
            before,
            after,
        }
    }

    /// One rule's report before and after the step, and what the step itself says.
    fn rules(&self) -> impl Iterator<Item = (&Value, &Value, Option<&Value>)> {
        let [before, after] = [&self.before, &self.after]
            .map(|answer| answer["report"]["rules"].as_array().expect("a list"));
        let told = self.told["rules"].as_array().expect("a list");
        let of = |id: &Value| told.iter().find(|rule| rule["id"] == *id);
        let both = before.iter().zip(after);
        both.map(move |(was, is)| (was, is, of(&is["id"])))
    }

    /// The layers of the drawing before and after the step, and what the step itself says.
    fn layers(&self) -> impl Iterator<Item = (&Value, &Value, &Value)> {
        let [before, after] = [&self.before, &self.after]
            .map(|answer| answer["drawing"]["layers"].as_array().expect("a list"));
        let told = self.told["layers"].as_array().expect("a list");
        let both = before.iter().zip(after);
        both.zip(told).map(|((was, is), told)| (was, is, told))
    }
}

/// What the line of a rule in a list shows.
fn line(rule: &Value) -> Vec<&Value> {
    let deciding = rule["deciding"].as_u64().unwrap_or_default();
    let part = &rule["parts"][usize::try_from(deciding).expect("a small number")];
    let outcome = &rule["outcome"];
    if ["pass", "not-applicable"].contains(&outcome.as_str().expect("a word")) {
        return vec![outcome, &part["brief"]];
    }
    let telling = part["telling"].as_u64();
    let telling = telling.map(|at| usize::try_from(at).expect("a small number"));
    let reading = telling.map_or(&Value::Null, |at| &part["readings"][at]);
    let texts = [&reading["measured"], &reading["limit"], &part["margin"]];
    let texts = texts.into_iter().map(|range| &range["text"]);
    texts.chain([outcome, &reading["bound"]]).collect()
}

const STILL: &str = r#"{"move": {"path": "pool", "dx": 0, "dy": 0}}"#;
const DRAGS: [&str; 6] = [
    r#"{"move": {"path": "pool", "dx": 1.2, "dy": -0.5}}"#,
    r#"{"move": {"path": "pool", "dx": -3, "dy": 2}}"#,
    r#"{"move": {"path": "pool", "dx": 0, "dy": 0.001}}"#,
    r#"{"move": {"path": "house", "dx": 0.3, "dy": 0.2}}"#,
    r#"{"pull": {"path": "pool", "what": "corner", "index": 2, "dx": 0.4, "dy": 0.3}}"#,
    r#"{"pull": {"path": "lot", "what": "corner", "index": 1, "dx": 0.4, "dy": 0.3}}"#,
];
const VIEWS: [&str; 5] = [
    r#"{"thing": "pool"}"#,
    r#"{"thing": "pool", "view": [-9000, -42000, 39000, 45000], "width": 600}"#,
    r#"{"view": [-9000, -42000, 39000, 45000], "shade": true}"#,
    r#"{"view": [-9000, -42000, 39000, 45000], "selected": "rear-line", "unit": "ft"}"#,
    r#"{"view": [-9000, -42000, 39000, 45000], "all-distances": true}"#,
];

/// A drag gives, step by step, what judging the changed plan gives, and tells only what is otherwise.
#[test]
fn a_step_of_a_drag_gives_what_the_changed_plan_gives() {
    for (options, drag) in VIEWS.iter().flat_map(|view| DRAGS.map(|drag| (view, drag))) {
        let step = Step::taken("eldermere", options, drag);
        assert_eq!(step.told["verdict"], step.after["report"]["verdict"]);
        assert_eq!(step.told["counts"], step.after["report"]["counts"]);
        let mut told = 0;
        for (was, is, now) in step.rules() {
            told += usize::from(now.is_some());
            assert_eq!(line(now.unwrap_or(was)), line(is), "{options} {drag}");
            // The selected rule is told whole, but for the lines of texts that a drag has not.
            let selected = options.contains(is["id"].as_str().expect("a text"));
            if let Some(now) = now.filter(|_| selected) {
                assert_eq!(now["sentence"], is["sentence"]);
            }
        }
        assert!(
            (1..step.rules().count()).contains(&told),
            "{options} {drag}"
        );
    }
}

/// A layer that is not told is as it was; one that is told is drawn as it would be at rest.
#[test]
fn a_step_of_a_drag_draws_what_the_changed_plan_looks_like() {
    for (options, drag) in VIEWS.iter().flat_map(|view| DRAGS.map(|drag| (view, drag))) {
        let step = Step::taken("eldermere", options, drag);
        let mut told = 0;
        for (was, is, now) in step.layers() {
            told += usize::from(!now.is_null());
            // In a drag the title of a distance says no more than the rule.
            if is.as_str().expect("a text").contains("class=\"distances") {
                continue;
            }
            assert_eq!(
                if now.is_null() { was } else { now },
                is,
                "{options} {drag}"
            );
        }
        assert!(told > 0, "{options} {drag}");
        if options.contains("view") && drag.contains("pool") && !options.contains("shade") {
            assert!(
                told <= 4,
                "the pool, its distances, letters and rings: {told}"
            );
        }
    }
}

#[test]
fn a_step_that_goes_nowhere_tells_nothing() {
    for options in VIEWS {
        let step = Step::taken("eldermere", options, STILL);
        assert_eq!(step.told["rules"], json("[]"), "{options}");
        assert!(step.layers().all(|(_, _, now)| now.is_null()), "{options}");
    }
}

/// In a drag of the pool a list of rules is told in few words.
#[test]
fn a_step_of_a_drag_is_short() {
    let step = Step::taken("eldermere", VIEWS[1], DRAGS[0]);
    let rules = step.told["rules"].to_string();
    assert!(
        !rules.contains("\"title\"") && rules.len() < 6000,
        "{rules}"
    );
}

#[test]
fn a_step_that_cannot_be_says_so() {
    let (plan, rules) = (demo(), rules("eldermere"));
    let begun = |plan: &str, rules: &str, options: &str| json(&begin(plan, rules, options));
    let step = |wish: &str| {
        assert_eq!(begin(&plan, &rules, "{}"), "");
        json(&follow(wish))
    };
    let wish = r#"{"move": {"path": "pool", "dx": 1, "dy": 0}}"#;
    assert!(step(wish)["verdict"].is_object());
    assert!(begun(BLANK, &rules, "{}")["refused"]["plan"].is_array());
    assert!(json(&follow(wish))["wrong"].is_string(), "none has begun");
    assert!(begun(&plan, "", "{}")["refused"]["rules"].is_array());
    assert!(begun(&plan, &rules, "[1]")["wrong"].is_string());
    assert!(step("{}")["wrong"].is_string());
    let nowhere = step(r#"{"move": {"path": "moon", "dx": 1, "dy": 0}}"#);
    assert!(
        nowhere["wrong"]
            .as_str()
            .expect("a sentence")
            .contains("moon")
    );
    let far = step(r#"{"move": {"path": "pool", "dx": 9000, "dy": 0}}"#);
    assert_eq!(far["refused"]["plan"][0]["code"], "pool-far-from-lot");
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

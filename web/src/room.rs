//! Where there is room for the pool: what is asked, the search while the page goes on, and what was found.

use std::cell::{Cell, RefCell};
use std::collections::VecDeque;
use std::future::poll_fn;
use std::pin::pin;
use std::rc::Rc;
use std::task::Poll;

use js_sys::Promise;
use rules_core::placement::{NotPlaced, Placement, TurnReport, Wait, Wishes, place_by_and_by};
use rules_core::session::path_of;
use rules_core::text::to_json_text;
use wasm_bindgen_futures::{JsFuture, spawn_local};

use crate::browser::tell;
use crate::hand::with_hand;
use crate::held::{texts, with};
use crate::judged::is_judged;
use crate::looks::with_looks;
use crate::plan::{is_pool, pools};
use crate::rules::{fitted, rules_of};
use crate::words::tongue;

/// How long a piece of the search may take before it lets the page go on, in milliseconds.
const PIECE: f64 = 16.0;
/// How long it waits while something is dragged, in milliseconds.
const WHILE_HELD: i32 = 100;
/// How many answers are kept, for whoever goes back and forth.
const KEPT: usize = 4;
/// How many turns are tried where the pool may be turned.
const TURNS: u32 = 4;
/// What is told when a search has ended.
pub const FOUND: &str = "room-found";

/// What is asked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Question {
    texts: [String; 2],
    tongue: String,
    /// The id of the pool.
    pub pool: String,
    /// The ids of what moves with it.
    pub with: Vec<String>,
    turns: u32,
}

/// What was found.
#[derive(Debug)]
pub struct Answer {
    /// What was asked.
    pub question: Question,
    /// The answer, or why there is none, in a sentence if there is one.
    pub found: Result<Placement, String>,
}

impl Answer {
    /// The map with the pool turned as it is drawn.
    pub fn map(&self) -> Option<(&Placement, &TurnReport)> {
        let found = self.found.as_ref().ok()?;
        Some((found, found.turns.first()?))
    }
}

/// How far the search is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// There is nothing to be asked: the plan cannot be judged.
    NotYet,
    /// It goes on.
    Looking,
    /// Somebody stopped it.
    Stopped,
    /// It has ended.
    Found,
}

/// What is known.
#[derive(Debug, Default)]
struct Room {
    looking: Option<Question>,
    stopped: Option<Question>,
    /// The newest first.
    answers: VecDeque<Rc<Answer>>,
}

thread_local! {
    static ROOM: RefCell<Room> = RefCell::default();
    /// The number of the search that goes on; one with another number has been stopped.
    static SEARCH: Cell<u32> = const { Cell::new(0) };
    /// How the pool was moved when it last took a place, and the plan that came of it.
    static MOVED: RefCell<Option<(String, [String; 2])>> = const { RefCell::new(None) };
}

/// What is to be asked of the plan as it is.
fn question() -> Option<Question> {
    let looks = with_looks(|looks| looks.clone());
    let chosen = looks.thing.filter(|id| with(|it| is_pool(it.plan(), id)));
    let first = || with(|it| Some(pools(it.plan()).first()?.1.get("id")?.text()?.to_owned()));
    let is_there = |id: &String| with(|it| path_of(it.plan(), id).is_some());
    let question = || {
        Some(Question {
            texts: texts(),
            tongue: tongue(),
            pool: chosen.or_else(first)?,
            with: looks.room_with.into_iter().filter(is_there).collect(),
            turns: if looks.room_turned { TURNS } else { 1 },
        })
    };
    is_judged().then(question).flatten()
}

/// Looks for places if they are to be shown and are not known yet.
pub fn seek() {
    let open = with_looks(|looks| looks.room);
    let wanted = open.then(question).flatten();
    let begins = ROOM.with_borrow_mut(|room| room.turn_to(wanted));
    if let Some(question) = begins {
        begin(question);
    }
}

impl Room {
    /// The question to search for now, if any. A search for another question ends.
    fn turn_to(&mut self, wanted: Option<Question>) -> Option<Question> {
        if wanted == self.looking {
            return None;
        }
        SEARCH.set(SEARCH.get().wrapping_add(1));
        self.looking = None;
        let wanted = wanted.filter(|it| self.stopped.as_ref() != Some(it))?;
        let known = self.answers.iter().position(|it| it.question == wanted);
        match known {
            Some(at) => {
                let known = self.answers.remove(at);
                self.answers.extend(known);
                self.answers.rotate_right(1);
            }
            None => self.looking = Some(wanted),
        }
        self.looking.clone()
    }

    fn keep(&mut self, answer: Answer) {
        self.looking = None;
        self.answers.push_front(Rc::new(answer));
        self.answers.truncate(KEPT);
    }
}

/// Stops the search; it does not begin again by itself.
pub fn stop() {
    SEARCH.set(SEARCH.get().wrapping_add(1));
    ROOM.with_borrow_mut(|room| room.stopped = room.looking.take());
}

/// Starts the search again after somebody stopped it.
pub fn look_again() {
    ROOM.with_borrow_mut(|room| room.stopped = None);
}

/// How far the search is, and what was found last, which may be of another plan.
pub fn now() -> (Stage, Option<Rc<Answer>>) {
    let question = question();
    ROOM.with_borrow(|room| {
        let last = room.answers.front().cloned();
        let is_it = |it: &Rc<Answer>| Some(&it.question) == question.as_ref();
        let stage = match (&question, &room.looking) {
            (None, _) => Stage::NotYet,
            (_, Some(_)) => Stage::Looking,
            _ if last.as_ref().is_some_and(is_it) => Stage::Found,
            _ => Stage::Stopped,
        };
        (stage, last)
    })
}

/// The answer, where it is for the plan as it is.
pub fn answer() -> Option<Rc<Answer>> {
    let (stage, last) = now();
    last.filter(|_| stage == Stage::Found)
}

/// Remembers, in words, how the pool was just moved.
pub fn set_moved(said: String) {
    MOVED.set(Some((said, texts())));
}

/// How the pool was moved, if nothing has been changed since.
pub fn moved() -> Option<String> {
    MOVED.with_borrow(|moved| {
        let (said, then) = moved.as_ref()?;
        (*then == texts()).then(|| said.clone())
    })
}

fn begin(question: Question) {
    let number = SEARCH.get();
    spawn_local(async move {
        let Some(found) = unless_stopped(number, search(&question)).await else {
            return;
        };
        ROOM.with_borrow_mut(|room| room.keep(Answer { question, found }));
        tell(FOUND);
    });
}

/// The result of a search; `None` if it was stopped.
async fn unless_stopped<T>(number: u32, search: impl Future<Output = T>) -> Option<T> {
    let mut search = pin!(search);
    poll_fn(|context| match SEARCH.get() == number {
        true => search.as_mut().poll(context).map(Some),
        false => Poll::Ready(None),
    })
    .await
}

async fn search(question: &Question) -> Result<Placement, String> {
    rest().await;
    let [plan, rules] = &question.texts;
    let rules = rules_of(rules).map_err(|_| String::new())?;
    let document = fitted(plan, &rules).map_err(|_| String::new())?.document;
    let plan = to_json_text(&document);
    let wishes = Wishes {
        pool: Some(question.pool.clone()),
        with: question.with.clone(),
        turns: question.turns,
        in_full: false,
        ..Wishes::default()
    };
    let begun = Rc::new(Cell::new(clock()));
    let pause = || -> Option<Wait> { (clock() - begun.get() > PIECE).then(|| pause(&begun)) };
    let found = place_by_and_by(&plan, &rules.rule_set, &wishes, &pause).await;
    found.map_err(|wrong| match wrong {
        NotPlaced::Unclear(why) => why,
        NotPlaced::Refused(_) => String::new(),
    })
}

/// Lets the page go on, and then begins another piece.
fn pause(begun: &Rc<Cell<f64>>) -> Wait {
    let begun = Rc::clone(begun);
    Box::pin(async move {
        rest().await;
        begun.set(clock());
    })
}

fn clock() -> f64 {
    let clock = web_sys::window().and_then(|window| window.performance());
    clock.map_or(0.0, |clock| clock.now())
}

/// Waits until the page has done what it has to, and nothing is dragged.
async fn rest() {
    later(0).await;
    while with_hand(|hand| hand.hold.is_some()) {
        later(WHILE_HELD).await;
    }
}

async fn later(milliseconds: i32) {
    let promise = Promise::new(&mut |done, _| {
        if let Some(window) = web_sys::window() {
            // While the page is being closed there is no window, and nothing to wait for.
            let _ =
                window.set_timeout_with_callback_and_timeout_and_arguments_0(&done, milliseconds);
        }
    });
    // This promise is never rejected.
    let _ = JsFuture::from(promise).await;
}

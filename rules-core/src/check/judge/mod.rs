//! The judge: the scene that it judges in, what it is asked, what it answers, and what it remembers.
//!
//! `value` measures with it and `rule` judges with it: a value can be chosen by a requirement, and a requirement limits
//! values, so the methods of the judge in these two call each other.

pub(super) mod compare;
pub(super) mod judged;
pub(super) mod members;
mod memo;
pub(super) mod possible;
pub(super) mod slack;

pub(crate) use crate::check::judge::judged::{Ask, Judged, Node, Role, Slack};
use std::rc::Rc;

use super::Truth;
use crate::check::judge::memo::Memos;
use crate::check::world::scene::Scene;
use crate::check::world::special::Special;
use crate::ruleset::InForce;
use crate::work;

/// The steps that it takes to make another scene, whatever is then judged in it.
const ANOTHER_SCENE: u64 = 10;

/// Judges requirements in one scene.
pub(crate) struct Judge<'a> {
    pub(crate) scene: Scene<'a>,
    pub(crate) special: Special,
    /// Whether readings are kept for the report; most judgements only need the truth.
    pub(crate) keeps: bool,
    /// When the rule set is in force; `None` where it is assumed to be.
    pub(crate) in_force: Option<&'a InForce>,
    /// The results of terms in this scene.
    pub(super) memos: Rc<Memos>,
}

impl<'a> Judge<'a> {
    pub(crate) fn new(scene: Scene<'a>, in_force: Option<&'a InForce>) -> Judge<'a> {
        Judge {
            special: Special::of(&scene.rules().vocabulary),
            scene,
            keeps: false,
            in_force,
            memos: Rc::default(),
        }
    }

    /// The same judge in another scene.
    pub(crate) fn in_scene(&self, scene: Scene<'a>) -> Judge<'a> {
        work::step(ANOTHER_SCENE);
        let memos = match scene.settled_since(&self.scene) {
            Some(facts) => Memos::settling(&self.memos, facts),
            None => Memos::default(),
        };
        Judge {
            scene,
            special: self.special,
            keeps: false,
            in_force: self.in_force,
            memos: Rc::new(memos),
        }
    }

    /// Whether readings are kept for the report: of a condition only the truth is ever used.
    pub(crate) fn keeps(&self, role: Role) -> bool {
        self.keeps && role == Role::Required
    }
}

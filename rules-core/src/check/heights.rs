//! How high over the ground the outlines of a kind are: one table.

use super::distance::End;
use super::facts::AmountView;
use super::judge::Judge;
use super::scene::{Env, Holder};
use crate::plan::Words;
use crate::quantity::Interval;
use crate::vocabulary::{FactId, OutlineId, Vocabulary};

/// How high over the ground something is; a name is that of a fact of the same kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Height {
    /// On the ground.
    Ground,
    /// As high as this fact says.
    At(&'static str),
    /// As deep below the ground as this fact says.
    Below(&'static str),
    /// Somewhere from the ground up to what this fact says.
    UpTo(&'static str),
    /// Somewhere from the ground down to the depth that this fact says.
    DownTo(&'static str),
    /// No farther above or below the ground than this fact says.
    About(&'static str),
    /// Between two facts.
    Between(&'static str, &'static str),
    /// As high as these facts say on the pool side and outside, over the ground on which the other thing stands.
    OnItsSide(&'static str, &'static str),
    /// At the pool's rim, where it runs over: the highest that the water can stand.
    Rim,
    /// Somewhere from the ground up to the pool's rim.
    UpToRim,
    /// So far above the pool's rim.
    OverRim(&'static str),
    /// So far above the ground or the pool's rim: nobody knows which of them was meant.
    OverGroundOrRim(&'static str),
    /// Below the ground or on it.
    Deep,
    /// On the ground or above it.
    High,
    /// Nobody knows.
    Unknown,
}

use Height::{
    About, At, Below, Between, Deep, DownTo, Ground, High, OnItsSide, OverGroundOrRim, OverRim,
    Rim, Unknown, UpTo, UpToRim,
};

/// Kind, outline (none: all others), lowest place, highest place; all between them belongs to the thing.
const EXTENTS: &[(&str, Option<&str>, Height, Height)] = &[
    ("pool", Some("water"), Rim, Rim),
    ("pool", Some("coping"), Rim, Rim),
    ("pool", Some("inside-face"), Unknown, Rim),
    ("pool", Some("shell"), Unknown, Rim),
    ("pool", Some("deck"), UpToRim, UpToRim),
    ("pool", Some("with-attached"), UpToRim, UpToRim),
    ("pool", Some("enclosed-area"), Ground, Ground),
    (
        "pool",
        Some("excavation"),
        DownTo("excavation-depth"),
        Ground,
    ),
    ("excavation-zone", None, DownTo("depth"), Ground),
    (
        "pool-wall-stretch",
        None,
        Ground,
        At("height-above-finished-grade"),
    ),
    ("cover", None, At("height"), At("height")),
    (
        "diving-structure",
        None,
        OverRim("height"),
        OverRim("height"),
    ),
    (
        "barrier-stretch",
        Some("top"),
        OnItsSide("height-inside", "height-outside"),
        OnItsSide("height-inside", "height-outside"),
    ),
    ("barrier-stretch", Some("foot"), Ground, Ground),
    (
        "barrier-stretch",
        Some("pool-face"),
        Ground,
        At("height-inside"),
    ),
    ("barrier-stretch", None, Ground, At("height-outside")),
    (
        "gate",
        Some("latch"),
        At("latch-height"),
        At("latch-height"),
    ),
    ("gate", None, Ground, At("height")),
    ("mesh-fence", None, Ground, At("height")),
    ("temporary-fence", None, Ground, At("height")),
    ("screen-enclosure", None, Ground, At("height")),
    ("pool-enclosure", None, Ground, At("height")),
    (
        "building",
        Some("roof"),
        At("eaves-height"),
        Between("eaves-height", "height"),
    ),
    (
        "building",
        Some("footing"),
        Below("footing-depth"),
        Below("footing-depth"),
    ),
    ("building", Some("foundation-at-grade"), Ground, Ground),
    ("building", None, Ground, Between("eaves-height", "height")),
    ("deck", None, At("height"), At("height")),
    ("equipment", None, Ground, At("height")),
    (
        "receptacle",
        None,
        OverGroundOrRim("height"),
        OverGroundOrRim("height"),
    ),
    (
        "light",
        None,
        OverGroundOrRim("height"),
        OverGroundOrRim("height"),
    ),
    (
        "disconnect",
        None,
        OverGroundOrRim("height"),
        OverGroundOrRim("height"),
    ),
    (
        "junction-box",
        None,
        OverGroundOrRim("height"),
        OverGroundOrRim("height"),
    ),
    ("overhead-line", None, At("height"), At("height")),
    ("buried-service", None, Below("depth"), Below("depth")),
    ("foothold", None, At("height"), At("height")),
    ("retaining-wall", None, About("height"), About("height")),
    ("lifting-machine", Some("sweep"), Ground, At("tip-height")),
    ("raised-ground", None, Ground, High),
    ("tree", Some("root-zone"), Deep, Ground),
    ("tree", Some("canopy"), High, High),
    ("septic-part", None, Deep, Ground),
];

/// Kinds that lie on the ground.
const FLAT: &[&str] = &[
    "lot",
    "lot-line",
    "road",
    "railway",
    "driveway",
    "easement",
    "ground-spot",
    "contour",
    "slope",
    "cliff",
    "drainage-path",
    "flood-area",
    "shoreline",
    "open-water",
    "top-of-bank",
    "stormwater-point",
];

/// From how low to how high an outline reaches over the ground; both may vary along it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Extent {
    pub(crate) bottom: Reach,
    pub(crate) top: Reach,
}

/// A height that may vary along a thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Reach {
    pub(crate) least: Interval,
    pub(crate) most: Interval,
}

impl Reach {
    pub(crate) const fn of(range: Interval) -> Reach {
        Reach {
            least: range,
            most: range,
        }
    }

    /// All that it may be anywhere.
    pub(crate) fn hull(self) -> Interval {
        self.least.hull(self.most)
    }

    /// The same with something done to both.
    pub(crate) fn map(self, change: impl Fn(Interval) -> Interval) -> Reach {
        Reach {
            least: change(self.least),
            most: change(self.most),
        }
    }
}

impl Extent {
    /// How far apart in height two things are, each of which takes up all between its lowest and its highest place.
    pub(crate) fn rise(&self, other: &Extent) -> Interval {
        let over = |one: &Extent, two: &Extent| one.bottom.hull().sub(two.top.hull());
        over(self, other)
            .max(over(other, self))
            .max(Interval::exact(0))
    }

    /// How far apart in height the highest place of the one and the lowest of the other are, whichever way that is more.
    pub(crate) fn most_apart(&self, other: &Extent) -> Interval {
        let over = |one: &Extent, two: &Extent| one.top.most.sub(two.bottom.least);
        over(self, other)
            .max(over(other, self))
            .max(Interval::exact(0))
    }

    /// The same, from the level of the ground below it.
    pub(crate) fn upon(self, ground: Interval) -> Extent {
        Extent {
            bottom: self.bottom.map(|height| height.add(ground)),
            top: self.top.map(|height| height.add(ground)),
        }
    }
}

/// The facts that say how high an outline lies: its own kind's, and the pool's where its rim is what counts.
pub(crate) fn facts_of_height(outline: OutlineId, vocabulary: &Vocabulary) -> Vec<FactId> {
    let kind = vocabulary.outline(outline).kind;
    let own = |name| vocabulary.fact_named(kind, name);
    let rim = || {
        let pool = vocabulary.kind_named("pool")?;
        vocabulary.fact_named(pool, "height-above-ground")
    };
    let (bottom, top) = heights_of(outline, vocabulary);
    let facts = [bottom, top].map(|height| match height {
        At(name) | Below(name) | UpTo(name) | DownTo(name) | About(name) => [own(name), None],
        Between(low, high) | OnItsSide(low, high) => [own(low), own(high)],
        Rim | UpToRim => [rim(), None],
        OverRim(name) | OverGroundOrRim(name) => [own(name), rim()],
        Ground | Deep | High | Unknown => [None, None],
    });
    facts.concat().into_iter().flatten().collect()
}

fn heights_of(outline: OutlineId, vocabulary: &Vocabulary) -> (Height, Height) {
    let outline = vocabulary.outline(outline);
    let kind = vocabulary.kind(outline.kind).name.as_str();
    let row = EXTENTS
        .iter()
        .find(|row| row.0 == kind && row.1.is_none_or(|name| name == outline.name));
    if let Some((_, _, bottom, top)) = row {
        return (*bottom, *top);
    }
    if FLAT.contains(&kind) {
        return (Ground, Ground);
    }
    match vocabulary.fact_named(outline.kind, "height") {
        Some(_) => (UpTo("height"), At("height")),
        None => (Unknown, Unknown),
    }
}

impl<'a> Judge<'a> {
    /// From how low to how high over the ground an outline may reach, as seen from another thing.
    pub(crate) fn extent(&self, end: &End<'_>, other: &End<'_>, env: &Env<'_>) -> Extent {
        let (bottom, top) = self.heights_of(end);
        let height = |height| match height {
            OnItsSide(inside, outside) => self.on_its_side(end, other, (inside, outside), env),
            height => self.height(height, end, env),
        };
        Extent {
            bottom: height(bottom),
            top: height(top),
        }
    }

    /// A fence's height over the ground on the side where the other thing stands; outside, where it has no side.
    fn on_its_side(
        &self,
        end: &End<'_>,
        other: &End<'_>,
        (inside, outside): (&str, &str),
        env: &Env<'_>,
    ) -> Reach {
        let vocabulary = &self.scene.rules().vocabulary;
        let kind = vocabulary.outline(other.outline).kind;
        let own = |name| self.own_height(end, name, env);
        let Some(side) = vocabulary.fact_named(kind, "barrier-side") else {
            return own(outside);
        };
        let seen = self.scene.fact(side, &env.bind(kind, other.holder), &[]);
        let may_be = |side: &str| match seen.view.words.as_deref() {
            Some(Words::OneOf(words)) => words.iter().any(|word| word == side),
            _ => true,
        };
        match (may_be("inside"), may_be("outside")) {
            (true, false) => own(inside),
            (false, true) => own(outside),
            _ => Reach::of(own(inside).hull().hull(own(outside).hull())),
        }
    }

    fn heights_of(&self, end: &End<'_>) -> (Height, Height) {
        heights_of(end.outline, &self.scene.rules().vocabulary)
    }

    fn height(&self, height: Height, end: &End<'_>, env: &Env<'_>) -> Reach {
        let ground = Interval::exact(0);
        let own = |name| self.own_height(end, name, env);
        let from_ground = |name| Reach::of(own(name).hull().hull(ground));
        match height {
            Ground => Reach::of(ground),
            At(name) => own(name),
            Below(name) => own(name).map(Interval::neg),
            UpTo(name) => from_ground(name),
            DownTo(name) => from_ground(name).map(Interval::neg),
            About(name) => Reach::of(own(name).hull().hull(own(name).hull().neg())),
            Between(low, high) | OnItsSide(low, high) => {
                Reach::of(own(low).hull().hull(own(high).hull()))
            }
            Rim => self.rim(end, env),
            UpToRim => Reach::of(self.rim(end, env).hull().hull(ground)),
            OverRim(name) => {
                let rim = self.rim(end, env).hull();
                own(name).map(|over| over.add(rim))
            }
            OverGroundOrRim(name) => {
                let base = self.rim(end, env).hull().hull(ground);
                own(name).map(|over| over.add(base))
            }
            Deep => Reach::of(Interval::up_to(0)),
            High => Reach::of(Interval::from_low(0)),
            Unknown => Reach::of(Interval::any()),
        }
    }

    /// What a fact of a thing says of its height.
    pub(crate) fn own_height(&self, end: &End<'_>, name: &str, env: &Env<'_>) -> Reach {
        let vocabulary = &self.scene.rules().vocabulary;
        let fact = vocabulary.fact_named(vocabulary.outline(end.outline).kind, name);
        fact.map_or(Reach::of(Interval::any()), |fact| {
            self.reach_of(fact, end.holder, env)
        })
    }

    pub(crate) fn reach_of(&self, fact: FactId, holder: Holder, env: &Env<'_>) -> Reach {
        let kind = self.scene.rules().vocabulary.fact(fact).kind;
        let seen = self.scene.fact(fact, &env.bind(kind, holder), &[]);
        let reach = |AmountView { least, most, .. }| Reach { least, most };
        seen.view.amount.map_or(Reach::of(Interval::any()), reach)
    }

    /// How high the rim of the pool stands over the ground: of this pool, else of any of them.
    fn rim(&self, end: &End<'_>, env: &Env<'_>) -> Reach {
        let (pool, vocabulary) = (self.special.pool, &self.scene.rules().vocabulary);
        let Some(fact) = vocabulary.fact_named(pool, "height-above-ground") else {
            return Reach::of(Interval::any());
        };
        if vocabulary.outline(end.outline).kind == pool {
            return self.reach_of(fact, end.holder, env);
        }
        let pools = self.all_of_kind(pool).into_iter();
        let rims = pools.map(|(pool, _)| self.reach_of(fact, pool, env));
        rims.reduce(|one, two| Reach::of(one.hull().hull(two.hull())))
            .unwrap_or(Reach::of(Interval::exact(0)))
    }
}

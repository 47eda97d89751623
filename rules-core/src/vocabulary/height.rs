//! How high above the ground an outline lies, and which fact states its level.

/// How high above the ground something is; `F` names a fact of the same kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Height<F> {
    /// On the ground.
    Ground,
    /// As high as this fact says.
    At(F),
    /// As deep below the ground as this fact says.
    Below(F),
    /// Somewhere from the ground up to what this fact says.
    UpTo(F),
    /// Somewhere from the ground down to the depth that this fact says.
    DownTo(F),
    /// No farther above or below the ground than this fact says.
    About(F),
    /// Between two facts.
    Between(F, F),
    /// As high as these facts say, on the pool side and outside, above the ground where the other thing stands.
    OnItsSide(F, F),
    /// At the pool's rim, where it overflows: the highest possible water level.
    Rim,
    /// Somewhere from the ground up to the pool's rim.
    UpToRim,
    /// Above the pool's rim by this fact.
    OverRim(F),
    /// Above the ground or the pool's rim by this fact; it is not known which was meant.
    OverGroundOrRim(F),
    /// Below the ground or on it.
    Deep,
    /// On the ground or above it.
    High,
    /// Not known.
    Unknown,
}

impl<F> Height<F> {
    /// The same with its facts renamed; `None` if one of them has no new name.
    pub(super) fn with<G>(self, name: impl Fn(F) -> Option<G>) -> Option<Height<G>> {
        use Height::*;
        Some(match self {
            Ground => Ground,
            At(fact) => At(name(fact)?),
            Below(fact) => Below(name(fact)?),
            UpTo(fact) => UpTo(name(fact)?),
            DownTo(fact) => DownTo(name(fact)?),
            About(fact) => About(name(fact)?),
            Between(low, high) => Between(name(low)?, name(high)?),
            OnItsSide(inside, outside) => OnItsSide(name(inside)?, name(outside)?),
            Rim => Rim,
            UpToRim => UpToRim,
            OverRim(fact) => OverRim(name(fact)?),
            OverGroundOrRim(fact) => OverGroundOrRim(name(fact)?),
            Deep => Deep,
            High => High,
            Unknown => Unknown,
        })
    }
}

impl<F: Copy> Height<F> {
    /// The facts that it names.
    pub(crate) fn facts(self) -> impl Iterator<Item = F> {
        use Height::*;
        let facts = match self {
            At(own) | Below(own) | UpTo(own) | DownTo(own) | About(own) => [Some(own), None],
            OverRim(own) | OverGroundOrRim(own) => [Some(own), None],
            Between(low, high) | OnItsSide(low, high) => [Some(low), Some(high)],
            Rim | UpToRim | Ground | Deep | High | Unknown => [None, None],
        };
        facts.into_iter().flatten()
    }
}

/// The fact that states a level.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Level<F> {
    /// The fact.
    pub fact: F,
    /// Whether it is the only clue: without it, the thing may lie any distance above or below the ground.
    pub only: bool,
}

impl<F> Level<F> {
    /// The same with its fact renamed.
    pub(super) fn with<G>(self, name: impl Fn(F) -> Option<G>) -> Option<Level<G>> {
        let fact = name(self.fact)?;
        Some(Level {
            fact,
            only: self.only,
        })
    }
}

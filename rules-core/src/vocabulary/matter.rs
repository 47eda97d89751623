//! The matters on which an authority may have rules. It is one short list that no file can add to: so every rule set can
//! be asked of each matter whether it holds it, and who knows it if not.

/// What the list says of a matter.
struct Row {
    id: &'static str,
    said: &'static str,
    ask: &'static str,
    who: &'static str,
}

/// Rows of matters: name in files, name in sentences; then what a person would ask, and who usually knows.
macro_rules! matters {
    ($($name:ident, $id:literal, $said:literal; $ask:literal, $who:literal;)*) => {
        /// A matter on which an authority may have rules.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Matter {
            $(#[doc = $said] $name),*
        }

        impl Matter {
            /// All of them, in the order in which they are shown.
            pub const ALL: &'static [Self] = &[$(Self::$name),*];

            fn row(self) -> Row {
                match self {
                    $(Self::$name => Row { id: $id, said: $said, ask: $ask, who: $who }),*
                }
            }
        }
    };
}

matters! {
    LotLines, "lot-lines", "distances to the lot lines";
        "How far must the pool, and what belongs to it, stay from the lot lines?", "the planning or zoning office";
    Road, "road", "roads and railways, and the view along them";
        "How far must the pool stay from roads and railways, and what must stay low at corners?", "the office that keeps the road, or the railway";
    Buildings, "buildings", "distances to buildings, and halls over the pool";
        "How far must the pool stay from buildings, and what counts as one?", "the building office";
    Zoning, "zoning", "the zoning plan, land use, and the share that may be built on";
        "May there be a pool here at all, and how much of the lot may be covered?", "the planning or zoning office";
    Barrier, "barrier", "the barrier round the pool";
        "What must keep a small child from the water?", "the building office";
    HouseDoors, "house-doors", "doors and windows of the house towards the pool";
        "What must keep a small child from going from the house to the water?", "the building office";
    Entrapment, "entrapment", "drains and suction, and their covers";
        "What must keep a drain or a pump from holding a swimmer fast?", "the building or health office, and the pool builder";
    Structure, "structure", "the pool's own build: shell, ladders, diving";
        "What must the shell, its steps and a diving board keep?", "the building office, and the engineer or the maker";
    Electricity, "electricity", "electrical things near the water";
        "Where may sockets, lights and switches be, and how are they protected?", "the electrical inspector";
    Services, "services", "pipes, cables and wires, below the ground and above it";
        "How far must the pool stay from pipes, cables and wires?", "the utilities, and the service that marks buried lines";
    Sewage, "sewage", "septic systems and wells, and filling and emptying the pool";
        "How far must the pool stay from septic systems and wells, and where may its water go?", "the health office, or who runs the water and the sewers";
    Flood, "flood", "floods, rain water and drainage";
        "May a flood or rain water come here, and what follows from that?", "the flood or drainage office";
    Ground, "ground", "digging, slopes and retaining walls";
        "What must be kept in digging, beside foundations, on slopes and with walls that hold earth?", "the building office, and an engineer";
    Shore, "shore", "the sea, lakes and streams";
        "How far must the pool stay from the sea, a lake, a stream or a wetland?", "the office for waters and the coast";
    HeritageAndNature, "heritage-and-nature", "monuments, protected areas and trees";
        "Is the place, a building beside it or a tree protected?", "the heritage and nature offices";
    Noise, "noise", "noise of the equipment";
        "How loud may the equipment be at the neighbours'?", "the environment or health office";
    PrivateRights, "private-rights", "easements and covenants";
        "Has anybody a right over the lot, or may an association say no?", "the land register or the deed, and the owners' association";
    Papers, "papers", "permits, notices, inspections and the steps between them";
        "Which permit is needed, and what must be handed in, told and inspected when?", "the building office";
}

impl Matter {
    /// The matter of that name.
    pub fn named(id: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|matter| matter.id() == id)
    }

    /// Its name in files: `house-doors`.
    pub fn id(self) -> &'static str {
        self.row().id
    }

    /// Its name in sentences: `doors and windows of the house towards the pool`.
    pub fn said(self) -> &'static str {
        self.row().said
    }

    /// What a person would ask.
    pub fn ask(self) -> &'static str {
        self.row().ask
    }

    /// Who usually knows.
    pub fn who(self) -> &'static str {
        self.row().who
    }
}

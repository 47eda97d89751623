//! The matters that an authority may have rules on: one short list that no file can extend. So every rule set has to
//! say, for each matter, whether it covers it and, if not, who knows.

use crate::words::Language;

/// The list's entry for a matter.
struct Row {
    id: &'static str,
    said: [&'static str; 3],
    ask: [&'static str; 3],
    who: [&'static str; 3],
}

/// Rows of matters: the name in files; then, in English, Bokmål and French, the name in sentences, the question a
/// person would ask, and who usually knows.
macro_rules! matters {
    ($($name:ident, $id:literal, [$said:literal, $($saids:literal),*], $ask:expr, $who:expr;)*) => {
        /// A matter that an authority may have rules on.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Matter {
            $(#[doc = $said] $name),*
        }

        impl Matter {
            /// All matters, in the order in which they are shown.
            pub const ALL: &'static [Self] = &[$(Self::$name),*];

            fn row(self) -> Row {
                match self {
                    $(Self::$name => Row { id: $id, said: [$said, $($saids),*], ask: $ask, who: $who }),*
                }
            }
        }
    };
}

matters! {
    LotLines, "lot-lines",
        ["distances to the lot lines",
         "avstander til tomtegrensene",
         "distances aux limites du terrain"],
        ["How far must the pool, and what belongs to it, stay from the lot lines?",
         "Hvor langt må bassenget, og det som hører til, ligge fra tomtegrensene?",
         "À quelle distance des limites du terrain la piscine, et ce qui va avec, doit-elle rester ?"],
        ["the planning or zoning office",
         "plan- eller bygningsmyndigheten",
         "le service d'urbanisme"];
    Road, "road",
        ["roads and railways, and the view along them",
         "veier og jernbaner, og sikten langs dem",
         "routes et chemins de fer, et la vue le long de ceux-ci"],
        ["How far must the pool stay from roads and railways, and what must stay low at corners?",
         "Hvor langt må bassenget ligge fra veier og jernbaner, og hva må være lavt ved kryss?",
         "À quelle distance des routes et des chemins de fer la piscine doit-elle rester, et qu'est-ce qui doit rester bas aux carrefours ?"],
        ["the office that keeps the road, or the railway",
         "den som har ansvar for veien, eller jernbanen",
         "le service qui entretient la route, ou le chemin de fer"];
    Buildings, "buildings",
        ["distances to buildings, and enclosures over the pool",
         "avstander til bygninger, og haller over bassenget",
         "distances aux bâtiments, et abris au-dessus de la piscine"],
        ["How far must the pool stay from buildings, and what counts as one?",
         "Hvor langt må bassenget ligge fra bygninger, og hva regnes som en bygning?",
         "À quelle distance des bâtiments la piscine doit-elle rester, et qu'est-ce qui compte comme bâtiment ?"],
        ["the building office",
         "byggesaksavdelingen",
         "le service des permis de construire"];
    Zoning, "zoning",
        ["the zoning plan, land use, and the share that may be built on",
         "reguleringsplan, arealbruk og andelen som kan bebygges",
         "plan d'urbanisme, usage du sol, et part qui peut être bâtie"],
        ["May there be a pool here at all, and how much of the lot may be covered?",
         "Kan det være et basseng her i det hele tatt, og hvor mye av tomten kan bebygges?",
         "Peut-il y avoir une piscine ici, et quelle part du terrain peut être couverte ?"],
        ["the planning or zoning office",
         "plan- eller bygningsmyndigheten",
         "le service d'urbanisme"];
    Barrier, "barrier",
        ["the barrier round the pool",
         "gjerdet rundt bassenget",
         "l'enceinte autour de la piscine"],
        ["What must keep a small child from the water?",
         "Hva må holde et lite barn borte fra vannet?",
         "Qu'est-ce qui doit tenir un petit enfant loin de l'eau ?"],
        ["the building office",
         "byggesaksavdelingen",
         "le service des permis de construire"];
    HouseDoors, "house-doors",
        ["doors and windows of the house towards the pool",
         "husets dører og vinduer mot bassenget",
         "portes et fenêtres de la maison vers la piscine"],
        ["What must keep a small child from going from the house to the water?",
         "Hva må hindre et lite barn i å gå fra huset til vannet?",
         "Qu'est-ce qui doit empêcher un petit enfant d'aller de la maison à l'eau ?"],
        ["the building office",
         "byggesaksavdelingen",
         "le service des permis de construire"];
    Entrapment, "entrapment",
        ["drains and suction, and their covers",
         "avløp og sug, og deres deksler",
         "bondes et aspiration, et leurs couvercles"],
        ["What must keep a drain or a pump from holding a swimmer fast?",
         "Hva må hindre at et avløp eller en pumpe holder en svømmer fast?",
         "Qu'est-ce qui doit empêcher une bonde ou une pompe de retenir un baigneur ?"],
        ["the building or health office, and the pool builder",
         "bygnings- eller helsemyndigheten, og bassengbyggeren",
         "le service des permis ou de la santé, et le constructeur de la piscine"];
    Structure, "structure",
        ["the pool's own build: shell, ladders, diving",
         "selve bassenget: skall, stiger, stuping",
         "la construction de la piscine : coque, échelles, plongeon"],
        ["What must the shell, its steps and a diving board keep?",
         "Hvilke krav må skallet, trappene og et stupebrett oppfylle?",
         "Quelles exigences la coque, ses marches et un plongeoir doivent-ils respecter ?"],
        ["the building office, and the engineer or the maker",
         "byggesaksavdelingen, og ingeniøren eller produsenten",
         "le service des permis de construire, et l'ingénieur ou le fabricant"];
    Electricity, "electricity",
        ["electrical things near the water",
         "elektrisk utstyr nær vannet",
         "installations électriques près de l'eau"],
        ["Where may sockets, lights and switches be, and how are they protected?",
         "Hvor kan stikkontakter, lamper og brytere være, og hvordan er de beskyttet?",
         "Où peuvent se trouver prises, lampes et interrupteurs, et comment sont-ils protégés ?"],
        ["the electrical inspector",
         "el-tilsynet",
         "l'inspecteur en électricité"];
    Services, "services",
        ["pipes, cables and wires, below the ground and above it",
         "rør, kabler og ledninger, under og over bakken",
         "conduites, câbles et fils, sous terre et au-dessus"],
        ["How far must the pool stay from pipes, cables and wires?",
         "Hvor langt må bassenget ligge fra rør, kabler og ledninger?",
         "À quelle distance des conduites, câbles et fils la piscine doit-elle rester ?"],
        ["the utilities, and the service that marks buried lines",
         "de som eier ledningene, og tjenesten som påviser dem",
         "les exploitants des réseaux, et le service qui les repère"];
    Sewage, "sewage",
        ["septic systems and wells, and filling and emptying the pool",
         "private avløp og brønner, og fylling og tømming av bassenget",
         "fosses septiques et puits, remplissage et vidange de la piscine"],
        ["How far must the pool stay from septic systems and wells, and where may its water go?",
         "Hvor langt må bassenget ligge fra private avløp og brønner, og hvor kan vannet slippes ut?",
         "À quelle distance des fosses septiques et des puits la piscine doit-elle rester, et où son eau peut-elle aller ?"],
        ["the health office, or who runs the water and the sewers",
         "helsemyndigheten, eller den som driver vann og avløp",
         "le service de la santé, ou qui exploite l'eau et les égouts"];
    Flood, "flood",
        ["floods, rain water and drainage",
         "flom, regnvann og drenering",
         "inondations, eau de pluie et drainage"],
        ["May a flood or rain water come here, and what follows from that?",
         "Kan flom eller regnvann komme hit, og hva følger av det?",
         "Une inondation ou l'eau de pluie peut-elle venir ici, et qu'en découle-t-il ?"],
        ["the flood or drainage office",
         "flom- eller vannmyndigheten",
         "le service des inondations ou du drainage"];
    Ground, "ground",
        ["digging, slopes and retaining walls",
         "graving, skråninger og støttemurer",
         "terrassement, pentes et murs de soutènement"],
        ["What must be kept in digging, beside foundations, on slopes and with walls that hold earth?",
         "Hva må overholdes ved graving, ved fundamenter, i skråninger og ved murer som holder jord?",
         "Que faut-il respecter en creusant, près des fondations, sur les pentes et avec les murs qui retiennent la terre ?"],
        ["the building office, and an engineer",
         "byggesaksavdelingen, og en ingeniør",
         "le service des permis de construire, et un ingénieur"];
    Shore, "shore",
        ["the sea, lakes and streams",
         "sjø, innsjøer og bekker",
         "la mer, les lacs et les cours d'eau"],
        ["How far must the pool stay from the sea, a lake, a stream or a wetland?",
         "Hvor langt må bassenget ligge fra sjøen, en innsjø, en bekk eller et våtmarksområde?",
         "À quelle distance de la mer, d'un lac, d'un cours d'eau ou d'un milieu humide la piscine doit-elle rester ?"],
        ["the office for waters and the coast",
         "vann- og kystmyndigheten",
         "le service des eaux et du littoral"];
    HeritageAndNature, "heritage-and-nature",
        ["monuments, protected areas and trees",
         "kulturminner, verneområder og trær",
         "monuments, espaces protégés et arbres"],
        ["Is the place, a building beside it or a tree protected?",
         "Er stedet, en bygning ved siden av eller et tre vernet?",
         "Le lieu, un bâtiment voisin ou un arbre est-il protégé ?"],
        ["the heritage and nature offices",
         "kulturminne- og naturvernmyndigheten",
         "les services du patrimoine et de la nature"];
    Noise, "noise",
        ["noise of the equipment",
         "støy fra utstyret",
         "le bruit des équipements"],
        ["How loud may the equipment be at the neighbours'?",
         "Hvor mye kan utstyret støye hos naboene?",
         "Quel bruit les équipements peuvent-ils faire chez les voisins ?"],
        ["the environment or health office",
         "miljø- eller helsemyndigheten",
         "le service de l'environnement ou de la santé"];
    PrivateRights, "private-rights",
        ["easements and covenants",
         "servitutter og klausuler",
         "servitudes et clauses privées"],
        ["Has anybody a right over the lot, or may an association say no?",
         "Har noen en rett over tomten, eller kan et velforeningsvedtak hindre det?",
         "Quelqu'un a-t-il un droit sur le terrain, ou une association peut-elle refuser ?"],
        ["the land register or the deed, and the owners' association",
         "grunnboken eller skjøtet, og velforeningen",
         "le registre foncier ou l'acte, et l'association des propriétaires"];
    Papers, "papers",
        ["permits, notices, inspections and the steps between them",
         "tillatelser, varsler, kontroller og stegene mellom dem",
         "permis, avis, inspections et étapes entre eux"],
        ["Which permit is needed, and what must be handed in, told and inspected when?",
         "Hvilken tillatelse trengs, og hva må leveres, varsles og kontrolleres når?",
         "Quel permis faut-il, et que faut-il déposer, signaler et faire inspecter, et quand ?"],
        ["the building office",
         "byggesaksavdelingen",
         "le service des permis de construire"];
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
        self.said_in(Language::English)
    }

    /// The same in a language.
    pub fn said_in(self, language: Language) -> &'static str {
        language.of_three(self.row().said)
    }

    /// The question a person would ask.
    pub fn ask(self) -> &'static str {
        self.ask_in(Language::English)
    }

    /// The same in a language.
    pub fn ask_in(self, language: Language) -> &'static str {
        language.of_three(self.row().ask)
    }

    /// Who usually knows.
    pub fn who(self) -> &'static str {
        self.who_in(Language::English)
    }

    /// The same in a language.
    pub fn who_in(self, language: Language) -> &'static str {
        language.of_three(self.row().who)
    }
}

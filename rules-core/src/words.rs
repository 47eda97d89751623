//! The report's own words in each language, in one table. Texts from rule files and plans are not in it.
//!
//! Findings about a thing are whole sentences made from figures and names; those are in English only.

/// A language that the report has words in.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Language {
    /// English.
    #[default]
    English,
    /// Norwegian, Bokmål.
    Bokmal,
    /// French.
    French,
}

impl Language {
    /// All of them with their short names (BCP 47).
    pub const ALL: [(&'static str, Self); 3] = [
        ("en", Self::English),
        ("nb", Self::Bokmal),
        ("fr", Self::French),
    ];

    /// The language of a short name, ignoring the region after it; English if there are no words in it.
    pub fn of(tag: &str) -> Self {
        let language = tag.split('-').next().unwrap_or_default();
        let known = Self::ALL.iter().find(|(short, _)| *short == language);
        known.map_or(Self::English, |(_, language)| *language)
    }

    /// Picks this language from a text in English, Bokmål and French.
    pub(crate) fn of_three(self, [english, bokmal, french]: [&'static str; 3]) -> &'static str {
        match self {
            Self::English => english,
            Self::Bokmal => bokmal,
            Self::French => french,
        }
    }

    /// Its short name.
    pub fn tag(self) -> &'static str {
        let known = Self::ALL.iter().find(|(_, language)| *language == self);
        known.map_or("en", |(short, _)| short)
    }
}

/// Rows: the name, then the words in English, Bokmål and French. Each language has the same `{…}` to fill in.
macro_rules! words {
    ($($name:ident, $en:literal, $nb:literal, $fr:literal;)*) => {
        /// Words of the report, each documented by its English words.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum Word {
            $(#[doc = $en] $name),*
        }

        impl Word {
            /// All of them.
            pub const ALL: &'static [Self] = &[$(Self::$name),*];

            /// The words, with their `{…}` not yet filled in.
            pub fn in_language(self, language: Language) -> &'static str {
                language.of_three(match self {
                    $(Self::$name => [$en, $nb, $fr]),*
                })
            }
        }
    };
}

words! {
    And, "and", "og", "et";
    // What the whole plan comes to.
    DoesNotComply, "The plan does not comply as drawn.",
        "Planen oppfyller ikke reglene slik den er tegnet.",
        "Le plan n'est pas conforme tel qu'il est dessiné.";
    NotDecided, "Not decided yet.", "Ikke avgjort ennå.", "Pas encore décidé.";
    NothingInTheseRules, "Nothing in these rules stands against the plan, but they do not cover everything.",
        "Ingenting i disse reglene står i veien for planen, men de omfatter ikke alt.",
        "Rien dans ces règles ne s'oppose au plan, mais elles ne couvrent pas tout.";
    NothingAgainst, "Nothing in this rule set stands against the plan.",
        "Ingenting i dette regelsettet står i veien for planen.",
        "Rien dans ces règles ne s'oppose au plan.";
    NothingAgainstInAll, "Nothing in these rule sets stands against the plan.",
        "Ingenting i disse regelsettene står i veien for planen.",
        "Rien dans ces ensembles de règles ne s'oppose au plan.";
    // What a rule comes to.
    Fail, "fail", "ikke oppfylt", "non respectée";
    Unknown, "unknown", "åpen", "ouverte";
    Marginal, "marginal", "for nær til å avgjøre", "trop proche de la limite";
    Refer, "refer", "for myndigheten", "à décider par l'autorité";
    Pass, "pass", "oppfylt", "respectée";
    NotApplicable, "not applicable", "gjelder ikke", "ne s'applique pas";
    // The head.
    Under, "under {title}, edition {edition} ({authority})",
        "etter {title}, utgave {edition} ({authority})",
        "selon {title}, édition {edition} ({authority})";
    UnderAll, "under these rule sets together:", "etter disse regelsettene sammen:",
        "selon ces ensembles de règles réunis :";
    UnderOne, "{id}: {title}, edition {edition} ({authority}). By itself: {verdict}",
        "{id}: {title}, utgave {edition} ({authority}). For seg: {verdict}",
        "{id} : {title}, édition {edition} ({authority}). À lui seul : {verdict}";
    GoTogether, "To be used together with {these}, but not named: {others}.",
        "Skal brukes sammen med {these}, men er ikke oppgitt: {others}.",
        "À utiliser avec {these}, mais non indiqué : {others}.";
    NoRuleBinds, "No rule binds.", "Ingen regel er bindende.", "Aucune règle n'est obligatoire.";
    OfThoseThatBind, "Of the rules that bind, {counts}.", "Av de bindende reglene: {counts}.",
        "Parmi les règles obligatoires, {counts}.";
    NoRuleApplied, "No rule of this rule set applied to the plan, so it judged nothing. If something is missing from the plan or \
        its `inventory`, add it; otherwise ask {authority} whether it is right that no rule applies.",
        "Ingen regel i dette regelsettet gjaldt for planen, så ingenting er vurdert etter det. Mangler noe i planen eller i `inventory`, \
        legg det til; spør ellers {authority} om det stemmer at ingen regel gjelder.",
        "Aucune règle de cet ensemble ne s'applique au plan : rien n'a donc été jugé. S'il manque quelque chose dans le plan ou dans \
        `inventory`, ajoutez-le ; sinon, demandez à {authority} s'il est juste qu'aucune règle ne s'applique.";
    OneFails, "{n} fails", "{n} er ikke oppfylt", "{n} n'est pas respectée";
    SomeFail, "{n} fail", "{n} er ikke oppfylt", "{n} ne sont pas respectées";
    OneIsOpen, "{n} depends on a missing answer", "{n} venter på et svar", "{n} attend une réponse";
    SomeAreOpen, "{n} depend on missing answers", "{n} venter på svar", "{n} attendent des réponses";
    OneIsClose, "{n} depends on how exact the plan is", "{n} avhenger av hvor nøyaktig planen er",
        "{n} dépend de l'exactitude du plan";
    SomeAreClose, "{n} depend on how exact the plan is", "{n} avhenger av hvor nøyaktig planen er",
        "{n} dépendent de l'exactitude du plan";
    OneIsReferred, "{n} is for the authority", "{n} er for myndigheten", "{n} relève de l'autorité";
    SomeAreReferred, "{n} are for the authority", "{n} er for myndigheten", "{n} relèvent de l'autorité";
    OnePasses, "{n} passes", "{n} er oppfylt", "{n} est respectée";
    SomePass, "{n} pass", "{n} er oppfylt", "{n} sont respectées";
    OneDoesNotApply, "{n} does not apply", "{n} gjelder ikke", "{n} ne s'applique pas";
    SomeDoNotApply, "{n} do not apply", "{n} gjelder ikke", "{n} ne s'appliquent pas";
    // The headings.
    WhatFails, "What fails", "Ikke oppfylt", "Ce qui n'est pas respecté";
    WhatFailsAsDrawn, "What fails as drawn, but not for sure", "Ikke oppfylt slik det er tegnet, men ikke sikkert",
        "Ce qui n'est pas respecté tel que dessiné, sans certitude";
    WhatIsOpen, "What depends on missing answers", "Venter på svar", "Ce qui attend une réponse";
    WhatIsClose, "What depends on how exact the plan is", "Avhenger av hvor nøyaktig planen er",
        "Ce qui dépend de l'exactitude du plan";
    WhatIsReferred, "What the authority decides", "Myndigheten avgjør", "Ce que l'autorité décide";
    WhichGoverns, "Which of two limits governs", "Hvilken av to grenser som gjelder", "Laquelle de deux limites prime";
    QuestionsToAnswer, "Questions to answer", "Spørsmål å svare på", "Questions auxquelles répondre";
    WhatIsHeld, "What these rules hold", "Det disse reglene omfatter", "Ce que ces règles couvrent";
    WhatIsNotHeld, "What these rules do not hold", "Det disse reglene ikke omfatter", "Ce que ces règles ne couvrent pas";
    WhatWasAnswered, "What others have answered", "Det andre har svart", "Ce que d'autres ont répondu";
    WhatComesOnTop, "What always comes on top", "Det som alltid kommer i tillegg", "Ce qui s'ajoute toujours";
    ReadBySome, "What only some of these rule sets read", "Det bare noen av disse regelsettene leser",
        "Ce que seuls certains de ces ensembles de règles lisent";
    WhatPasses, "What passes (figures at their worst)", "Oppfylt (tall slik de er på det verste)",
        "Ce qui est respecté (chiffres au plus défavorable)";
    WhatDoesNotApply, "What does not apply", "Gjelder ikke", "Ce qui ne s'applique pas";
    WhatIsAdvised, "What is only advised, and does not bind", "Bare råd, ikke bindende",
        "Simples conseils, non obligatoires";
    WhatFollows, "What follows from the plan", "Hva som følger av planen", "Ce qui découle du plan";
    Papers, "Papers to gather", "Papirer som trengs", "Documents à réunir";
    Duties, "What is to be done, and when", "Hva som skal gjøres, og når", "Ce qu'il faut faire, et quand";
    TakeCare, "Take care", "Vær forsiktig", "Prudence";
    WhatNext, "What to do next", "Hva du gjør nå", "Que faire maintenant";
    // About a finding.
    AnswerQuestion, "To decide it: answer question {numbers} below.", "For å avgjøre det: svar på spørsmål {numbers} nedenfor.",
        "Pour décider : répondez à la question {numbers} ci-dessous.";
    AnswerQuestions, "To decide it: answer questions {numbers} below.", "For å avgjøre det: svar på spørsmål {numbers} nedenfor.",
        "Pour décider : répondez aux questions {numbers} ci-dessous.";
    WhatToDo, "What to do: {remedy}", "Hva du kan gjøre: {remedy}", "Que faire : {remedy}";
    Contradicted, "Published sources contradict each other about this rule: ask.",
        "Kildene er uenige om denne regelen: spør.",
        "Les sources publiées se contredisent sur cette règle : renseignez-vous.";
    ReadSo, "How this clause is read (by {by}, since {since}): {says}",
        "Slik leses bestemmelsen (av {by}, siden {since}): {says}",
        "Comment cette clause est lue (par {by}, depuis le {since}) : {says}";
    Note, "Note: {note}", "Merk: {note}", "Note : {note}";
    RuleIn, "rule `{rule}` in {file}", "regel `{rule}` i {file}", "règle `{rule}` de {file}";
    Line, ", line {line}", ", linje {line}", ", ligne {line}";
    ForRules, "For {rules}.", "For {rules}.", "Pour {rules}.";
    Met, "met", "oppfylt", "respectée";
    AllMet, "all {n} met", "alle {n} oppfylt", "toutes respectées ({n})";
    AllClosest, "all {n}, the closest {brief}", "alle {n}, den nærmeste {brief}", "toutes ({n}), la plus proche {brief}";
    Followed, "{title}: followed, {brief}", "{title}: fulgt, {brief}", "{title} : suivi, {brief}";
    NotFollowed, "{title}: not followed. {sentence}", "{title}: ikke fulgt. {sentence}", "{title} : non suivi. {sentence}";
    AdviceOpen, "{title}: open. {sentence}", "{title}: åpent. {sentence}", "{title} : ouvert. {sentence}";
    // The edition.
    WhichEdition, "Which edition{of} governs", "Hvilken utgave{of} som gjelder", "Quelle édition{of} s'applique";
    EditionGoverns, "{edition}{of} governs this plan.", "{edition}{of} gjelder for denne planen.",
        "{edition}{of} s'applique à ce plan.";
    EditionOf, " of {id}", " av {id}", " de {id}";
    Edition, "Edition {edition}", "Utgave {edition}", "L'édition {edition}";
    EditionOpen, "It is not known which of these editions governs the plan. Whatever this report decides holds for each of them.", "Det er ikke kjent hvilken av disse utgavene som gjelder for planen. Det som er avgjort i denne rapporten, er likt for alle.",
        "On ne sait pas laquelle de ces éditions s'applique au plan. Ce qui est décidé dans ce rapport l'est quelle qu'elle soit.";
    EditionPerhapsNone, "It is not known which of these editions governs the plan, or whether any of them does yet. Whatever this report decides holds for each of them.",
        "Det er ikke kjent hvilken av disse utgavene som gjelder for planen, eller om noen av dem gjelder ennå. Det som er avgjort i denne rapporten, er likt for alle.",
        "On ne sait pas laquelle de ces éditions s'applique au plan, ni même si l'une d'elles s'applique déjà. Ce qui est décidé dans ce rapport l'est quelle qu'elle soit.";
    IfEdition, "If it is edition {edition}", "Hvis det er utgave {edition}", "Si c'est l'édition {edition}";
    OnlyThisEdition, "Paper that only this edition calls for: {title}", "Papir som bare denne utgaven krever: {title}",
        "Document que seule cette édition exige : {title}";
    // What the rules leave to others.
    Ask, "Ask {who}.", "Spør {who}.", "Demandez à : {who}.";
    Answered, "answered", "besvart", "répondu";
    ScopeNotSaid, "The rule file does not say which matters it holds: ask about all of them.",
        "Regelfilen sier ikke hvilke emner den omfatter: spør om alle.",
        "Le fichier de règles ne dit pas quels sujets il couvre : renseignez-vous sur tous.";
    ScopeOpen, "These rules do not hold, and nobody has answered: {matters}.",
        "Disse reglene omfatter ikke, og ingen har svart på: {matters}.",
        "Ces règles ne couvrent pas, et personne n'a répondu sur : {matters}.";
    // Papers.
    PaperFrom, ", from {from}", ", fra {from}", ", de : {from}";
    Needed, "needed", "trengs", "nécessaire";
    PerhapsNeeded, "may be needed", "trengs kanskje", "peut-être nécessaire";
    NotNeeded, "not needed for this plan", "trengs ikke for denne planen", "pas nécessaire pour ce plan";
    StillToGet, ", still to get", ", må skaffes", ", encore à obtenir";
    InHand, ", in hand", ", foreligger", ", en main";
    Refused, ", asked for and refused", ", søkt om og avslått", ", demandé et refusé";
    // What every report warns of.
    Drowning, "Children drown fast and without a sound. No barrier, cover or alarm stands in for an adult who watches. Keep the hole and the pool closed off from the first day, also during the works and before the authority has passed the barrier.",
        "Barn drukner fort og uten en lyd. Intet gjerde, trekk eller alarm erstatter en voksen som følger med. Hold gropen og bassenget avstengt fra første dag, også mens arbeidet pågår og før myndigheten har godtatt gjerdet.",
        "Un enfant se noie vite et sans bruit. Aucune enceinte, couverture ni alarme ne remplace un adulte qui surveille. Tenez la fouille et la piscine fermées dès le premier jour, aussi pendant les travaux et avant que l'autorité ait accepté l'enceinte.";
    ElectricityKills, "Electricity near water kills. Wiring, bonding and the connection of equipment are for a licensed electrician and are inspected before the pool is filled. Keep ladders, poles and machines away from overhead lines, and ask whoever owns a line before working below it.",
        "Strøm nær vann dreper. Ledninger, utjevningsforbindelser og tilkobling av utstyr er for en autorisert elektriker og kontrolleres før bassenget fylles. Hold stiger, stenger og maskiner unna luftledninger, og spør den som eier en ledning før det arbeides under den.",
        "L'électricité près de l'eau tue. Le câblage, les liaisons équipotentielles et le raccordement des appareils sont l'affaire d'un électricien qualifié et se vérifient avant le remplissage. Tenez échelles, perches et machines loin des lignes aériennes, et demandez à qui possède une ligne avant de travailler dessous.";
    BeforeDigging, "Before anybody digs, have the buried services located and marked by those who own them; in many places a call to the locating service is the law. The plan shows only what somebody stated, not what lies in the ground.",
        "Før noen graver, må rør og kabler i bakken påvises og merkes av dem som eier dem; mange steder er det lovpålagt å melde fra til påvisningstjenesten. Planen viser bare det noen har oppgitt, ikke det som ligger i bakken.",
        "Avant que quiconque creuse, faites repérer et marquer les réseaux enterrés par ceux à qui ils appartiennent ; en bien des endroits, la loi oblige à appeler le service de repérage. Le plan ne montre que ce que quelqu'un a indiqué, pas ce qui se trouve dans le sol.";
    HoleFallsIn, "A hole beside a foundation, a wall or a slope can bring it down, and its sides can bury a person. How it is held open is for a licensed engineer to say; nobody goes into a hole that is not held open.",
        "En grop ved et fundament, en mur eller en skråning kan få dem til å rase, og sidene kan begrave et menneske. Hvordan den sikres, er det en ansvarlig ingeniør som sier; ingen går ned i en grop som ikke er sikret.",
        "Une fouille près d'une fondation, d'un mur ou d'une pente peut les faire tomber, et ses parois peuvent ensevelir quelqu'un. C'est à un ingénieur qualifié de dire comment l'étayer ; personne ne descend dans une fouille qui n'est pas étayée.";
    Blasting, "Rock is blasted only by a licensed blaster with the authority's leave, and only after the neighbouring buildings and services have been looked at.",
        "Fjell sprenges bare av en sertifisert bergsprenger med myndighetens tillatelse, og først etter at nabobygninger og ledninger er undersøkt.",
        "Le roc n'est dynamité que par un boutefeu titulaire d'un permis, avec l'accord de l'autorité, et seulement après examen des bâtiments et des réseaux voisins.";
    Lifting, "A shell that is lifted in is a load over people, buildings and lines. The lift is for a qualified crane crew, who judge the ground and the lines themselves; nobody stands below.",
        "Et skall som løftes inn, er en last over mennesker, bygninger og ledninger. Løftet er for et kvalifisert kranlag, som selv vurderer grunnen og ledningene; ingen står under.",
        "Une coque que l'on pose à la grue est une charge au-dessus de gens, de bâtiments et de lignes. Le levage est l'affaire d'une équipe de grutage qualifiée, qui juge elle-même du sol et des lignes ; personne ne se tient dessous.";
    // What to do next.
    ThenTheOther, "; then the other rule that fails", "; deretter den andre regelen som ikke er oppfylt",
        " ; puis l'autre règle qui n'est pas respectée";
    ThenTheOthers, "; then the {n} other rules that fail", "; deretter de {n} andre reglene som ikke er oppfylt",
        " ; puis les {n} autres règles qui ne sont pas respectées";
    ThenTheOtherAsDrawn, "; then the other rule that fails as drawn",
        "; deretter den andre regelen som ikke er oppfylt slik det er tegnet",
        " ; puis l'autre règle qui n'est pas respectée telle que dessinée";
    ThenTheOthersAsDrawn, "; then the {n} other rules that fail as drawn",
        "; deretter de {n} andre reglene som ikke er oppfylt slik det er tegnet",
        " ; puis les {n} autres règles qui ne sont pas respectées telles que dessinées";
    Mend, "{remedy} ({title}){others}.", "{remedy} ({title}){others}.", "{remedy} ({title}){others}.";
    MendAsDrawn, "{remedy} ({title}), if it is as it is drawn{others}.", "{remedy} ({title}), hvis det er slik det er tegnet{others}.",
        "{remedy} ({title}), si c'est comme dessiné{others}.";
    AnswerTheOne, "answer the question above", "svar på spørsmålet ovenfor", "répondez à la question ci-dessus";
    AnswerThem, "answer the {n} questions above", "svar på de {n} spørsmålene ovenfor", "répondez aux {n} questions ci-dessus";
    MeasureMore, "state or measure more exactly what it depends on", "oppgi eller mål mer nøyaktig det som avhenger av det",
        "indiquez ou mesurez plus exactement ce qui en dépend";
    CheckAgain, "{steps}; put it into the plan's file, and check again.", "{steps}; skriv det i planfilen, og kontroller på nytt.",
        "{steps} ; notez-le dans le fichier du plan, et vérifiez de nouveau.";
    TakeItThere, "Take the plan and the papers to {authority}, who decide.", "Gå med planen og papirene til {authority}, som avgjør.",
        "Portez le plan et les documents à l'autorité qui décide : {authority}.";
    AskTheAuthority, "Ask the authority ({authority}) about anything that is not clear: they decide.",
        "Spør myndigheten ({authority}) om alt som ikke er klart: de avgjør.",
        "Demandez à l'autorité ({authority}) tout ce qui n'est pas clair : c'est elle qui décide.";
    AskTheAuthorities, "Ask the authorities ({authority}) about anything that is not clear: they decide.", "Spør myndighetene ({authority}) om alt som ikke er klart: de avgjør.",
        "Demandez aux autorités ({authority}) tout ce qui n'est pas clair : ce sont elles qui décident.";
    ChangeThePlan, "Change the plan.", "Endre planen.", "Modifiez le plan.";
    GetOnePaper, "Get the one paper that is still missing.", "Skaff det ene papiret som mangler.",
        "Procurez-vous le document qui manque encore.";
    GetPapers, "Get the {n} papers that are still missing.", "Skaff de {n} papirene som mangler.",
        "Procurez-vous les {n} documents qui manquent encore.";
    AskTheRest, "Ask about what these rules do not hold, and put each answer into the plan's file, with who gave it and when.",
        "Spør om det disse reglene ikke omfatter, og skriv hvert svar i planfilen, med hvem som ga det og når.",
        "Renseignez-vous sur ce que ces règles ne couvrent pas, et notez chaque réponse dans le fichier du plan, avec qui l'a donnée et quand.";
    // Where figures are from.
    FromLaw, "from the law", "fra loven", "de la loi";
    FromAuthority, "from an office's page", "fra en myndighets side", "de la page d'une autorité";
    FromCopy, "from a copy of the law", "fra en kopi av loven", "d'une copie de la loi";
    FromRestatement, "from a restatement", "fra en gjengivelse", "d'une reformulation";
    FromTrade, "from the trade", "fra bransjen", "de la profession";
    FromMemory, "from memory", "fra hukommelsen", "de mémoire";
    ToBeChecked, "from memory, to be checked", "fra hukommelsen, må kontrolleres", "de mémoire, à vérifier";
    SecondHand, "Of the {of} values of these rules, {n} are neither from the law nor from an office's page: {grades}. Each is marked where it is used.",
        "Av de {of} verdiene i disse reglene er {n} verken fra loven eller fra en myndighets side: {grades}. Hver av dem er merket der den brukes.",
        "Sur les {of} valeurs de ces règles, {n} ne viennent ni de la loi ni de la page d'une autorité : {grades}. Chacune est signalée là où elle sert.";
    OneSecondHand, "Of the {of} values of these rules, {n} is neither from the law nor from an office's page: {grades}. It is marked where it is used.",
        "Av de {of} verdiene i disse reglene er {n} verken fra loven eller fra en myndighets side: {grades}. Den er merket der den brukes.",
        "Sur les {of} valeurs de ces règles, {n} ne vient ni de la loi ni de la page d'une autorité : {grades}. Elle est signalée là où elle sert.";
    // The foot.
    Disclaimer, "This is neither an official text nor a permit. It says what the rule file {files}, makes of the plan as it was stated; either may be wrong or out of date. Only this authority decides: {authority}. Ask there before anything is built.",
        "Dette er verken en offisiell tekst eller en tillatelse. Her står hva regelfilen {files}, sier om planen slik den er beskrevet; begge kan være feil eller utdatert. Bare denne myndigheten avgjør: {authority}. Spør der før noe bygges.",
        "Ceci n'est ni un texte officiel ni un permis. On y lit ce que le fichier de règles {files}, dit du plan tel qu'il a été décrit ; l'un ou l'autre peut être faux ou dépassé. Seule cette autorité décide : {authority}. Consultez-la avant de construire quoi que ce soit.";
    DisclaimerOfAll, "This is neither an official text nor a permit. It says what the rule files {files}, make of the plan as it was stated; any of them may be wrong or out of date. Only these authorities decide: {authority}. Ask there before anything is built.",
        "Dette er verken en offisiell tekst eller en tillatelse. Her står hva regelfilene {files}, sier om planen slik den er beskrevet; enhver av dem kan være feil eller utdatert. Bare disse myndighetene avgjør: {authority}. Spør der før noe bygges.",
        "Ceci n'est ni un texte officiel ni un permis. On y lit ce que les fichiers de règles {files}, disent du plan tel qu'il a été décrit ; chacun peut être faux ou dépassé. Seules ces autorités décident : {authority}. Consultez-les avant de construire quoi que ce soit.";
    FileAndEdition, "`{title}`, edition {edition}", "`{title}`, utgave {edition}", "`{title}`, édition {edition}";
}

impl Word {
    /// The words with each named gap filled in.
    pub fn said(self, language: Language, fill: &[(&str, &str)]) -> String {
        let mut said = String::new();
        let mut rest = self.in_language(language);
        while let Some((before, after)) = rest.split_once('{') {
            let (name, behind) = after.split_once('}').unwrap_or((after, ""));
            let filled = fill.iter().find(|(known, _)| *known == name);
            said.push_str(before);
            said.push_str(filled.map_or("", |(_, text)| text));
            rest = behind;
        }
        said + rest
    }
}

#[cfg(test)]
mod tests {
    use super::{Language, Word};

    /// The names in braces, sorted.
    fn holes(words: &str) -> Vec<&str> {
        let pieces = words.split('{').skip(1);
        let mut holes: Vec<&str> = pieces
            .map(|piece| piece.split_once('}').unwrap().0)
            .collect();
        holes.sort_unstable();
        holes
    }

    #[test]
    fn each_language_has_the_same_gaps() {
        for word in Word::ALL {
            let [en, others @ ..] = Language::ALL.map(|(_, language)| word.in_language(language));
            for other in others {
                assert_eq!(holes(en), holes(other), "{word:?}");
                assert_eq!(en.ends_with('.'), other.ends_with('.'), "{word:?}");
                assert!(!other.trim().is_empty(), "{word:?}");
            }
        }
    }

    #[test]
    fn a_filled_in_text_is_not_filled_in_again() {
        let said = Word::Under.said(
            Language::French,
            &[("title", "{edition}"), ("edition", "2"), ("authority", "A")],
        );
        assert_eq!(said, "selon {edition}, édition 2 (A)");
    }

    #[test]
    fn a_language_is_found_by_its_short_name_whatever_the_region() {
        for (tag, language) in [
            ("en", Language::English),
            ("nb", Language::Bokmal),
            ("fr-CA", Language::French),
            ("de", Language::English),
            ("", Language::English),
        ] {
            assert_eq!(Language::of(tag), language, "{tag}");
        }
    }
}

//! Every kind of fault: a row each, with the one sentence that holds for all faults of that kind.

use super::codes;

codes! {
    "Any text", "Faults of YAML or JSON itself. Nothing of the file is read until they are mended.":

    /// The file is not UTF-8 text: save it again with the encoding UTF-8.
    NotUtf8 "not-utf8",
    /// The file is longer than the program reads: see whether it is the right one.
    TooLong "too-long",
    /// The file has more keys and values than the program reads: see whether it is the right one.
    TooMany "too-many",
    /// Lists and maps stand inside each other too deep: probably a bracket is not closed.
    TooDeep "too-deep",
    /// Nothing is written in the file; comments alone do not count.
    EmptyFile "empty-file",
    /// The file does not begin with a key: put every part of it under a key of its own.
    TopNotAMap "top-not-a-map",
    /// A file holds one document: take out `---`, `...` and lines that begin with `%`.
    SeveralDocuments "several-documents",
    /// A line that begins with `%` is an instruction to YAML that is not understood: take it out.
    Directive "directive",
    /// A character looks like a space, a hyphen or a quotation mark but is another one: type the one on the keyboard.
    Lookalike "lookalike",
    /// The text has a character that nobody can see: take it out.
    ControlCharacter "control-character",
    /// A line is indented with a tab: indent with spaces, because a tab has no fixed width.
    Tab "tab",
    /// A line is indented differently from those that it belongs to: what belongs together begins in the same column.
    Indentation "indentation",
    /// A bracket is not closed, or a `,` is missing between two entries.
    Bracket "bracket",
    /// A quotation mark is opened and never closed: put the same mark at the end of the text.
    QuoteNotClosed "quote-not-closed",
    /// Something stands after a closing quotation mark: put all of the text inside the marks.
    AfterQuote "after-quote",
    /// A text begins with a character that means something to YAML: put the text in quotes.
    NeedsQuotes "needs-quotes",
    /// A `\` in double quotes begins an escape that names no character: write `\\` for one `\`.
    BadEscape "bad-escape",
    /// A `#` ends a text that it may be part of: put the text in quotes, or a space after the `#` of a comment.
    CutByComment "cut-by-comment",
    /// A comma ends a text inside `{ }`: put a text with a comma in quotes.
    CommaInText "comma-in-text",
    /// What belongs to a key is not indented further than the key.
    NotIndented "not-indented",
    /// A `:` cannot stand here, or no space follows it: put text with a `:` in quotes, and write keys as `key: value`.
    Colon "colon",
    /// A key has no `:` after it: write `key: value`.
    NoColon "no-colon",
    /// A key is missing, or is no single word or text: write `key: value`.
    BadKey "bad-key",
    /// A key stands twice in one map: keep one of the two.
    DuplicateKey "duplicate-key",
    /// `<<` takes over another part of the file, which is not possible: write the keys out.
    MergeKey "merge-key",
    /// A `?` cannot begin a key: write `key: value`, and put text that begins with a `?` in quotes.
    QuestionMark "question-mark",
    /// A list item cannot begin here, or no space follows its `-`: write each item as `- item` on a line of its own.
    ListItem "list-item",
    /// A value is missing between two commas or brackets: write it, or take out what is too many.
    ValueMissing "value-missing",
    /// Something stands after a value has ended: put the whole value in quotes, or begin a new line.
    LeftOver "left-over",
    /// A text after `|` or `>` does not begin as it must: it stands on the next lines, indented further.
    BlockText "block-text",
    /// A comment has no space before its `#`: add one, or put a text with `#` in quotes.
    Comment "comment",
    /// A word with `*` repeats another part of the file, which is not possible: write that part out.
    Alias "alias",
    /// A word with `&` names a part of the file to be repeated, which is not possible: write that part out.
    Anchor "anchor",
    /// A word with `!` is a tag, and tags are not read: take it out, or put the text in quotes.
    Tag "tag",
    /// The text cannot be read on from here: look at the indentation, the brackets and the quotation marks.
    NotYaml "not-yaml",
    /// A value has no form in YAML, so that it cannot be written.
    NotWritable "not-writable",

    "Plans and rule files", "What both kinds of file must keep.":

    /// Keys with values are expected, one `key: value` on each line.
    NotAMap "not-a-map",
    /// A list is expected: begin each item with `- ` on a line of its own.
    NotAList "not-a-list",
    /// `yes` or `no` is expected.
    NotYesOrNo "not-yes-or-no",
    /// A key that must be there is not written: write it beside the others.
    MissingKey "missing-key",
    /// Nothing is written after a key: write its value, or leave the key out where that is possible.
    EmptyValue "empty-value",
    /// A key is not one of those that can stand here: see whether it is misspelt.
    UnknownKey "unknown-key",
    /// A kind of thing is not known: see whether it is misspelt, or whether its rule set is in use.
    UnknownKind "unknown-kind",
    /// An outline is not one that the kind of thing has: use one that it has.
    UnknownOutline "unknown-outline",
    /// A word is not one of those that can stand here: use one that can.
    UnknownWord "unknown-word",
    /// A source is named that the file does not list: add it under `sources`.
    UnknownSource "unknown-source",
    /// A short name has characters that it cannot have: use small letters, digits and hyphens, a letter first.
    BadId "bad-id",
    /// An amount cannot be read: write a figure with its unit, as in `1.2 m`.
    BadAmount "bad-amount",
    /// One amount is expected, without a range or a ±.
    NotOneAmount "not-one-amount",
    /// One value is expected here.
    NotAValue "not-a-value",
    /// A value is the same all along the thing, so that nothing can be said of one end or place of it: write one amount.
    DoesNotVary "does-not-vary",

    "Plans", "What is wrong with a plan by itself.":

    /// A number has no unit, and the plan declares none: write `unit: m` or `unit: ft`, or a unit behind each number.
    NoUnit "no-unit",
    /// A plan's unit is a unit of length.
    BadUnit "bad-unit",
    /// An angle is more than a full turn.
    BadAngle "bad-angle",
    /// A length, or how far off it may be, cannot be less than nothing, and often not nothing.
    NotPositive "not-positive",
    /// A place or a length is farther than any lot reaches: see whether its unit or a digit is wrong.
    TooFar "too-far",
    /// A value is beyond what is possible in the world: see whether its unit or a digit is wrong.
    BeyondLimits "beyond-limits",
    /// A range goes from more to less: write the lesser amount after `from`.
    WrongWayRound "wrong-way-round",
    /// Only half of a range is written: write both `from` and `to`.
    HalfARange "half-a-range",
    /// A range goes from days to months: write both in the same unit.
    UnlikeAmounts "unlike-amounts",
    /// `one-of` needs a list of what it may still be.
    EmptyOneOf "empty-one-of",
    /// There always is one of these, so that `none` makes no sense: write `unknown` where nobody knows.
    NoneNotPossible "none-not-possible",
    /// There always is one of these, so that the inventory need not speak of it.
    AlwaysThere "always-there",
    /// The inventory says that there is none, and one is drawn: correct one of the two.
    NoneButDrawn "none-but-drawn",
    /// One day is expected, not a range of days.
    NotOneDay "not-one-day",
    /// A matter is answered that is none of those that can be.
    UnknownMatter "unknown-matter",
    /// A thing is named that is not in the plan.
    UnknownThing "unknown-thing",
    /// Two things or two sources have the same name: give each its own.
    SameId "same-id",
    /// There can be only one thing of this kind.
    MoreThanOne "more-than-one",
    /// A thing is part of itself, by way of others.
    PartOfItself "part-of-itself",
    /// There are more things than the program reads.
    TooManyThings "too-many-things",
    /// A thing or an outline stands at a place of the plan where it does not belong.
    WrongPlace "wrong-place",
    /// The plan has no pool.
    NoPool "no-pool",
    /// The pool lies far from its lot: give both in the same coordinates.
    PoolFarFromLot "pool-far-from-lot",
    /// The lot's corners need a name each.
    NotCorners "not-corners",
    /// The lot has no corner of this name.
    UnknownCorner "unknown-corner",
    /// A side of the lot runs between two corners that follow each other.
    NotNeighbours "not-neighbours",
    /// One side of the lot is described twice.
    SideTwice "side-twice",
    /// There are too few corners or points for this outline.
    TooFewPoints "too-few-points",
    /// There are more corners or points than the program reads.
    TooManyPoints "too-many-points",
    /// A list of points is expected, as in `[[0, 0], [4, 0], [4, 3]]`.
    NotPoints "not-points",
    /// A point is expected: how far east and how far north, as in `[8, 20]`.
    NotAPoint "not-a-point",
    /// An outline is drawn in a way that is not known: see whether the word is misspelt.
    UnknownWay "unknown-way",
    /// An outline is drawn in two ways at once: keep one.
    TwoWays "two-ways",
    /// An area is drawn where a line is expected, or an outline cannot have the shape of the one it is taken from.
    WrongShape "wrong-shape",
    /// An outline cannot be worked out from the one it names: draw it.
    NotDerived "not-derived",
    /// An outline crosses or touches itself: write its points in the order in which one walks round it.
    CrossesItself "crosses-itself",
    /// Two neighbouring corners or points are the same: leave one of them out.
    SamePoint "same-point",
    /// `parts` needs a list of outlines.
    NotParts "not-parts",
    /// The parts of one outline need the same radius or width.
    UnlikeParts "unlike-parts",
    /// The corners are rounder than the rectangle has room for.
    TooRound "too-round",
    /// A curved outline needs at least three corners, and at most one arc between two of them.
    NotCurved "not-curved",
    /// An arc stands either `out` or `in`, and by how much.
    NotAnArc "not-an-arc",
    /// No kidney has these measures: measure it again.
    NoKidney "no-kidney",
    /// The notch of an L must be shorter and narrower than the L itself.
    NoL "no-l",

    "Rule files", "What is wrong with a rule file by itself.":

    /// The file is a plan, not a rule file.
    NotARuleFile "not-a-rule-file",
    /// A text is expected.
    NotAText "not-a-text",
    /// A single word is expected.
    NotAWord "not-a-word",
    /// A word is common in laws, but not one of the words of a rule: write the one that is.
    WrongWord "wrong-word",
    /// `least` is more than `most`, so that nothing lies between them.
    LeastAboveMost "least-above-most",
    /// A day is expected that decides when the rules are in force.
    NotADay "not-a-day",
    /// A short name is not that of a language: write `en`, `nb`, `fr` or the like.
    NotALanguage "not-a-language",
    /// There are two of the same name: give each its own.
    DuplicateId "duplicate-id",
    /// A name belongs to something else already: choose another.
    NameTaken "name-taken",
    /// There is no fact, question or day of this name.
    UnknownFact "unknown-fact",
    /// There is no question, day or term of this name that could give a value.
    UnknownValue "unknown-value",
    /// There is no term of this name.
    UnknownTerm "unknown-term",
    /// There is no rule of this name.
    UnknownRule "unknown-rule",
    /// There is no document of this name: add it under `documents`.
    UnknownDocument "unknown-document",
    /// There is no step and no day of this name.
    UnknownEvent "unknown-event",
    /// What is drawn has no value by itself: measure it with `distance`, `area` or `length`.
    NotAFact "not-a-fact",
    /// Something that is not drawn has no outline to measure from.
    NoOutline "no-outline",
    /// A kind of thing has several outlines: say which one is meant.
    WhichOutline "which-outline",
    /// An outline is expected.
    NotAnOutline "not-an-outline",
    /// An outline that is an area is expected.
    NotAnArea "not-an-area",
    /// A kind of thing is expected, or a term for things of one kind.
    NotThings "not-things",
    /// A term does not say what it stands for in a form that can be told apart.
    UnclearTerm "unclear-term",
    /// A term is defined by itself: follow what it stands for, and break the ring.
    TermCycle "term-cycle",
    /// Too many terms stand on each other.
    TermsTooDeep "terms-too-deep",
    /// One thing is meant where a plan can have several: put `each` before it, or say that all are meant.
    SayEach "say-each",
    /// It is open whether each pool by itself is meant or all of them together: write `each` or `all`.
    EachOrAll "each-or-all",
    /// A word is not on the list of a fact that takes any word: use a listed word, or add a fact of your own.
    UnlistedWord "unlisted-word",
    /// It is not clear whether the part in a zone or all of each thing is meant: put `in` beside `of`, or use `sum`.
    PartOrWhole "part-or-whole",
    /// `where` chooses among things, and no `each` says which.
    NoEach "no-each",
    /// Things are chosen twice by a zone, or by what they are part of.
    TwoZones "two-zones",
    /// A zone is expected: `around`, `between`, `corner`, `not`, or the name of an area.
    NotAZone "not-a-zone",
    /// Two lines are expected, as in `[one, other]`.
    NotTwo "not-two",
    /// A list of one or several outlines is expected.
    BadList "bad-list",
    /// A condition on each thing stands where things are only named: move it to `where`.
    MoveToWhere "move-to-where",
    /// Nothing says what must hold.
    NoRequirement "no-requirement",
    /// A requirement is expected, and this does not say what must hold.
    NotARequirement "not-a-requirement",
    /// Two requirements stand in one: write a list.
    TwoRequirements "two-requirements",
    /// A list is empty, so that it says nothing.
    EmptyList "empty-list",
    /// What it means if there is none of these must be said here: add `if-none`.
    IfNoneMissing "if-none-missing",
    /// A fact can be `none`, and nothing says whether the requirement holds then.
    NotOfNone "not-of-none",
    /// A value that is never `none` is asked whether it is: use `count` to ask whether there are any.
    NeverNone "never-none",
    /// A value has no bound: add `at-least`, `at-most`, `is` or the like.
    NoBound "no-bound",
    /// The limits rule each other out: see whether one is the wrong way round.
    Contradiction "contradiction",
    /// A limit or its measure is outside the requirement, or the limit is inside the measure: put both side by side.
    Misplaced "misplaced",
    /// One measure is expected, and just one.
    NotOneMeasure "not-one-measure",
    /// An amount is expected, and this is a word.
    NotAnAmount "not-an-amount",
    /// One sort of amount is given where another is expected.
    SortsDiffer "sorts-differ",
    /// A share is expected, from 0 % to 100 %.
    NotAShare "not-a-share",
    /// A share does not say what it is a share of: add `share-of`.
    PercentOfWhat "percent-of-what",
    /// These amounts cannot be multiplied with each other.
    BadProduct "bad-product",
    /// There are fewer values than this needs.
    TooFew "too-few",
    /// A row does not say when it applies.
    NoRowTest "no-row-test",
    /// A row says twice when it applies: keep one.
    TwoTests "two-tests",
    /// A row does not say what it gives: add `then`.
    NoThen "no-then",
    /// `otherwise` is followed by `yes`.
    OtherwiseNo "otherwise-no",
    /// Nothing says what holds where no row applies: add a last row `otherwise`.
    NoOtherwise "no-otherwise",
    /// A case is in no row of the table: add a row, or a last row `otherwise`.
    TableGap "table-gap",
    /// A row stands after `otherwise`, so that it can never apply: put `otherwise` last.
    RowAfterOtherwise "row-after-otherwise",
    /// A decision always gives a class: put its condition into a row.
    DecisionWhen "decision-when",
    /// A document does not say when it is needed.
    BadNeeded "bad-needed",
    /// There is a document for each thing, and nothing says of which: add `each`.
    PaperOfWhich "paper-of-which",
    /// This is no time that can pass: write, say, `14 days`.
    BadSpan "bad-span",
    /// A span is counted from something, and nothing says from what: add `before` or `after`.
    NoEvent "no-event",
    /// The two spans of a step leave no day for it.
    SpanOrder "span-order",
    /// Steps wait for each other in a circle: take away one `before` or `after`.
    CircleOfSteps "circle-of-steps",
    /// This is no number of working days: write, say, `3 working days`.
    BadWorkingDays "bad-working-days",
    /// This is no holiday: write a day, a day of every year, or days from Easter Sunday.
    BadHoliday "bad-holiday",
    /// A calendar lists too many holidays: write what comes every year once.
    TooManyHolidays "too-many-holidays",
    /// By this calendar nobody ever works.
    NoWorkingDay "no-working-day",
    /// A source is to be read again no later than it was read.
    AgainOrder "again-order",
    /// A file with `sources` says how well a value is known by their grade: take out the `provenance`.
    MarkAndGrade "mark-and-grade",
    /// The scope names one matter twice.
    MatterTwice "matter-twice",
    /// The scope leaves a matter open that it must name.
    MatterUnnamed "matter-unnamed",
    /// The scope says that the rules hold a matter that none of them reads.
    MatterNotRead "matter-not-read",
    /// A kind is said to be like another and lacks the facts by which that one is judged.
    LikeWithoutItsFacts "like-without-its-facts",

    "Rule files on top of others", "What is wrong with what a rule file changes in those that it builds on, or with its editions.":

    /// There is no rule set of this name to build on: give its file along with this one.
    UnknownBase "unknown-base",
    /// Files build on each other in a ring.
    BaseRing "base-ring",
    /// A file builds on one that has an earlier edition: it needs an edition of its own that builds on that one.
    BaseHasEarlier "base-has-earlier",
    /// Too many files build on each other.
    TooManyBases "too-many-bases",
    /// The rule has no part of this name that could be changed.
    UnknownPart "unknown-part",
    /// A rule that is a minimum is made laxer: keep it or make it stricter.
    Laxer "laxer",
    /// A rule that is the most that may be asked is made stricter: keep it or make it laxer.
    Stricter "stricter",
    /// A rule says that it tightens another, but asks for the same.
    TightensNothing "tightens-nothing",
    /// Only a whole rule can be tightened: use `replaces` for a part of it.
    TightensPart "tightens-part",
    /// This edit cannot have a condition.
    EditWhen "edit-when",
    /// What replaces a term keeps its name.
    OtherName "other-name",
    /// A word has other answers in the earlier edition: give this one another name.
    ChangedWord "changed-word",
    /// The format is not one that this program reads: use a newer program, or correct the number.
    UnknownFormat "unknown-format",
    /// The last day in force comes before the first.
    InForceOrder "in-force-order",
    /// There is an earlier edition, and nothing says from which day on this one counts: add `in-force`.
    NoEditionDay "no-edition-day",
    /// The earlier edition begins to count no earlier than this one.
    EditionOrder "edition-order",

    "What looks like a slip", "The file is read and its rules are used, but the writer may want to look again.":

    /// Two rules cannot both hold where both apply.
    Clash "clash",
    /// A line no longer means what it meant in the format the file was written for: read it again.
    MeaningChanged "meaning-changed",
    /// A distance from something to itself is always zero: name two things.
    SameEnds "same-ends",
    /// A share is many times the whole: check whether a `%` is missing.
    LargeShare "large-share",
    /// Two `not` cancel each other out: remove both.
    DoubleNot "double-not",
    /// A `not` before a list holds as soon as one item fails: say whether all of them or any of them is meant.
    NotOfList "not-of-list",
    /// The distance to the lot as an area is always nothing: measure to `lot-line`.
    DistanceToTheLot "distance-to-the-lot",
    /// A limit jumps between two rows of a table as laws seldom make it: read the rows again.
    LimitJumps "limit-jumps",
    /// A rule can never apply: its conditions rule each other out.
    NeverApplies "never-applies",
    /// Every plan keeps this limit: check whether a digit, the unit or the direction is wrong.
    AlwaysHolds "always-holds",
    /// What a rule requires already follows from its own conditions.
    RequiresItsCondition "requires-its-condition",
    /// A requirement can never hold.
    NeverHolds "never-holds",
    /// A row of a table can never apply.
    RowNeverApplies "row-never-applies",
    /// A limit never counts beside another that asks for more: take one out.
    LimitIdle "limit-idle",
    /// A rule never counts beside another that asks for more of the same: take one out.
    RuleIdle "rule-idle",
    /// A measured amount is asked for to the millimetre: write a limit.
    ExactAmount "exact-amount",
    /// A share is less than a hundredth: check whether it is a hundred times too small.
    SmallShare "small-share",
    /// A point stands before three figures, as others write thousands: a point stands before decimals here.
    ThousandsPoint "thousands-point",
    /// A year is long ago or far ahead: check its figures.
    OddYear "odd-year",
    /// One amount is in no row but the last, between two rows: see which of the two it belongs to.
    TableHole "table-hole",
    /// A decision always gives the same class.
    DecisionSame "decision-same",
    /// A limit asks for the opposite of what laws ask for there: a gap is at least so wide.
    LimitTurned "limit-turned",
    /// A least length is in parts of a millimetre, where a thousand times as much is usual: see whether the unit is right.
    TinyLimit "tiny-limit",
    /// A list of requirements has one item only: see whether the next line belongs to it.
    OneMember "one-member",
    /// A share is one of the pool or of the lot, and what is measured lies elsewhere: see what is under `share-of` and `in`.
    OddShare "odd-share",
    /// A step has an id only, so that the report does not say what is to be done: add `what`.
    StepUnsaid "step-unsaid",
    /// A rule is for each of some things, and what it requires does not speak of them: measure to the thing.
    EachNotUsed "each-not-used",
    /// A rule for each of some things counts or takes the parts of all of them: `part-of` takes each one's own.
    PartsOfAll "parts-of-all",
    /// A condition of a rule asks something of every pool on the plan, where the pool being judged may be meant.
    EachPoolInCondition "each-pool-in-condition",
    /// A relief asks for less than the rule and for nothing else, so that the rule's own limit never counts.
    ReliefLaxer "relief-laxer",
    /// A file has no rules, so that every plan passes.
    NoRules "no-rules",
    /// Working days are counted, and no holidays are named.
    NoHolidays "no-holidays",
    /// A rule names no source, so that its values count as from memory.
    NoSource "no-source",
    /// A fact can be `none`, and nothing says what holds then.
    NoneUnsaid "none-unsaid",
    /// A rule is judged for other things than the one it replaces, of which nothing is left for the rest: see whether that is meant.
    ReplacesForFewer "replaces-for-fewer",
    /// Whether a change is stricter or laxer than the base's rule cannot be told: see for yourself.
    NotCompared "not-compared",
    /// One document is enough for several things: say so, or ask for one for each.
    OneForAll "one-for-all",
    /// A relief asks for nothing, so that with it the rule can never fail.
    ReliefAsksNothing "relief-asks-nothing",
    /// A relief asks for all that the rule asks for, so that it never helps.
    ReliefNoHelp "relief-no-help",
    /// Nothing says which matters the rules hold, and which they leave to others: add `scope`.
    ScopeMissing "scope-missing",
    /// Nothing calls for a document.
    UnusedDocument "unused-document",
    /// No rule uses the answer to a question.
    UnusedQuestion "unused-question",
    /// Nothing was read in a source.
    UnusedSource "unused-source",
    /// A term is never used.
    UnusedTerm "unused-term",
    /// Each member of an `any-of` is for another case of one fact: write a `table`.
    UseATable "use-a-table",
    /// No case tries a rule.
    NoCase "no-case",

    "Plans under rule sets", "What comes to light only where a plan is read or judged by rules.":

    /// A case has no plan, and the file has no `base`: give it a plan.
    NoPlan "no-plan",
    /// A tape and the drawing contradict each other, however far off both may be.
    TapeContradictsDrawing "tape-contradicts-drawing",
    /// A level and a height contradict each other, however far off both may be.
    LevelContradictsHeight "level-contradicts-height",
    /// There is one document, not one for each thing: write how it stands.
    OnePaper "one-paper",
    /// There is a document for each thing: write the id of each and how its document stands.
    SayWhichPaper "say-which-paper",
    /// Several rule sets use one word, each for something of its own: write the one that is meant in front.
    SayWhichRuleSet "say-which-rule-set",
    /// A word is said twice for one rule set, with its name and without: keep one.
    SaidTwice "said-twice",
    /// Two rule sets that are used together have the same name: give one of them another.
    SameRuleSet "same-rule-set",
    /// Reading or judging would take too many steps: make shorter lists, or split the rules.
    TooMuchWork "too-much-work",
}

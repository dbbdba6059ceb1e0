//! Classes of words: what a word or phrase can be in a sentence.

/// What a word can be. The names of the files' lines are these in lower case.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Class {
    /// `the`, `a`, `those`.
    Det,
    /// `it`, `they`, `one`.
    Pron,
    /// `he`, `they`: somebody else.
    ThirdPerson,
    /// `I`, `we`.
    FirstPerson,
    /// Forms of *to be*.
    Be,
    /// Forms of *to have*.
    Have,
    /// Forms of *to do* before a verb.
    Do,
    /// `can`, `will`, `may`.
    Modal,
    /// Denials.
    Not,
    /// Prepositions.
    Prep,
    /// `in`, `up`, `down`: where finished work is.
    Particle,
    /// `and`, `but`, `or`.
    Conj,
    /// `because`.
    Cause,
    /// `till`, `unless`, `before`.
    Until,
    /// `once`, `if`.
    When,
    /// `which`, `that`.
    Which,
    /// Words that change little.
    Adv,
    /// `um`, `right`, `okay`.
    Filler,
    /// What takes back.
    Correct,
    /// Answers that affirm.
    Yes,
    /// Answers that deny.
    No,
    /// `maybe`, `I think`.
    Hedge,
    /// `he says`, `apparently`.
    Hearsay,
    /// What a reading should be.
    Wanted,
    /// `needs`, `wants`.
    Need,
    /// What is meant to be done.
    Will,
    /// Work that is finished.
    Done,
    /// Work that is not.
    NotDone,
    /// Work that has begun.
    Started,
    /// Goods that are here.
    Arrived,
    /// Goods that are not.
    NotArrived,
    /// Goods that left.
    WentAway,
    /// `fine`, `level`.
    Ok,
    /// Tests passed.
    Pass,
    /// Tests failed.
    Fail,
    /// Goods ordered.
    Ordered,
    /// `inspection`, `pressure test`.
    TestNoun,
    /// What is not right, as an adjective.
    Wrong,
    /// What is not right, as a noun.
    FaultNoun,
    /// What is not right, as a verb.
    FaultVerb,
    /// After *too*.
    TooWord,
    /// Verbs that head an order.
    Act,
    /// Verbs of telling.
    Talk,
    /// Verbs that also head idle talk.
    Soft,
    /// Verbs of choosing.
    Decide,
    /// What is open to choose.
    Decision,
    /// `waiting for`, `held up`.
    Block,
    /// Verbs of reading.
    Read,
    /// What can be read: `gap`, `moisture`.
    AbleNoun,
    /// Trades and people.
    Person,
    /// Who decides.
    Owners,
    /// Words for rooms.
    Room,
    /// `left`, `north`.
    Side,
    /// Storeys.
    Level,
    /// Talk that is no news.
    Idle,
    /// Names of things.
    Thing,
    /// Verbs that tell nothing of the house.
    Verb,
}

/// Every class with its name in the files.
const NAMES: [(&str, Class); 57] = [
    ("det", Class::Det),
    ("pron", Class::Pron),
    ("thirdperson", Class::ThirdPerson),
    ("firstperson", Class::FirstPerson),
    ("be", Class::Be),
    ("have", Class::Have),
    ("do", Class::Do),
    ("modal", Class::Modal),
    ("not", Class::Not),
    ("prep", Class::Prep),
    ("particle", Class::Particle),
    ("conj", Class::Conj),
    ("cause", Class::Cause),
    ("until", Class::Until),
    ("when", Class::When),
    ("which", Class::Which),
    ("adv", Class::Adv),
    ("filler", Class::Filler),
    ("correct", Class::Correct),
    ("yes", Class::Yes),
    ("no", Class::No),
    ("hedge", Class::Hedge),
    ("hearsay", Class::Hearsay),
    ("wanted", Class::Wanted),
    ("need", Class::Need),
    ("will", Class::Will),
    ("done", Class::Done),
    ("notdone", Class::NotDone),
    ("started", Class::Started),
    ("arrived", Class::Arrived),
    ("notarrived", Class::NotArrived),
    ("wentaway", Class::WentAway),
    ("ok", Class::Ok),
    ("pass", Class::Pass),
    ("fail", Class::Fail),
    ("ordered", Class::Ordered),
    ("testnoun", Class::TestNoun),
    ("wrong", Class::Wrong),
    ("faultnoun", Class::FaultNoun),
    ("faultverb", Class::FaultVerb),
    ("tooword", Class::TooWord),
    ("act", Class::Act),
    ("talk", Class::Talk),
    ("soft", Class::Soft),
    ("decide", Class::Decide),
    ("decision", Class::Decision),
    ("block", Class::Block),
    ("read", Class::Read),
    ("ablenoun", Class::AbleNoun),
    ("person", Class::Person),
    ("owners", Class::Owners),
    ("room", Class::Room),
    ("side", Class::Side),
    ("level", Class::Level),
    ("idle", Class::Idle),
    ("thing", Class::Thing),
    ("verb", Class::Verb),
];

impl Class {
    /// The class of a line of a file.
    pub(crate) fn named(name: &str) -> Option<Self> {
        NAMES
            .iter()
            .find(|(known, _)| *known == name)
            .map(|(_, class)| *class)
    }
}

/// A set of classes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Classes(u64);

impl Classes {
    /// Puts a class in.
    pub(crate) fn add(&mut self, class: Class) {
        self.0 |= 1 << class as u64;
    }

    /// Takes a class out.
    pub(crate) fn take(&mut self, class: Class) {
        self.0 &= !(1 << class as u64);
    }

    /// Whether a class is in.
    pub(crate) fn has(self, class: Class) -> bool {
        self.0 & (1 << class as u64) != 0
    }

    /// Whether any of the classes is in.
    pub(crate) fn any(self, classes: &[Class]) -> bool {
        classes.iter().any(|class| self.has(*class))
    }

    /// Whether no class is in: a word that the lexicon does not know.
    pub(crate) fn is_empty(self) -> bool {
        self.0 == 0
    }
}

//! What every rule is written with.

pub(crate) use grounds_model::Grade::{Memory, Practice, Published};

pub(crate) use crate::{
    cautions,
    input::{Input, Who, Word, asked, limit, word, yes_no},
    quantity::*,
    rule::{Family, Rule, memory, practice, published},
    working::{Stop, Worked, Working},
};

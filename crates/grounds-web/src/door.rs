//! Through which door a request came, and as whom.

use std::sync::Arc;

use axum::http::Extensions;
use grounds_store::Person;

/// Through which door a request came. Every request that reaches a page carries one.
#[derive(Clone, Debug)]
pub(crate) enum Door {
    /// The desk's: this machine, whoever sits at it.
    Desk,
    /// The phones': a phone that joined.
    Phone(Arc<Person>),
    /// The phones', by somebody who has not joined. Only joining is answered.
    Stranger,
}

impl Door {
    /// The door in a request. One that carries none came through no door, and gets no more than a
    /// stranger.
    pub(crate) fn of(extensions: &Extensions) -> Self {
        extensions.get().cloned().unwrap_or(Self::Stranger)
    }

    /// The name of who came through it, where the door knows it.
    pub(crate) fn name(&self) -> Option<&str> {
        match self {
            Self::Phone(person) => Some(&person.name),
            Self::Desk | Self::Stranger => None,
        }
    }

    /// Whether it is the desk's: only there phones are let in and shut out.
    pub(crate) fn is_desk(&self) -> bool {
        matches!(self, Self::Desk)
    }

    /// How addresses behind it begin.
    pub(crate) fn scheme(&self) -> &'static str {
        if self.is_desk() { "http" } else { "https" }
    }
}

//! What can go wrong while a page is served, as a sentence.

use axum::http::StatusCode;
use grounds_model::Faults;
use grounds_photo::Refused;
use grounds_store::StoreError;

/// Why a request could not be answered.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Fault {
    /// The job document has faults.
    #[error("The job document cannot be used: {0}")]
    Document(String),
    /// There can be no plan.
    #[error("{0}")]
    Plan(String),
    /// Nothing was written.
    #[error("Not saved: {0}.")]
    Store(#[from] StoreError),
    /// There is no such page, job or work.
    #[error("{0}")]
    Missing(String),
    /// Only the desk may do that.
    #[error("{0}")]
    Desk(&'static str),
    /// What was sent cannot be used.
    #[error("{0}")]
    Input(String),
    /// A photo that is not taken.
    #[error("{0}")]
    Photo(#[from] Refused),
    /// The program failed.
    #[error("Something went wrong in the program: {0}. What was saved is safe.")]
    Broke(String),
}

impl Fault {
    /// A document that has faults.
    pub(crate) fn document(faults: Faults) -> Self {
        Self::Document(faults.to_string())
    }

    /// Work aside that did not end.
    pub(crate) fn broke_off(error: tokio::task::JoinError) -> Self {
        Self::Broke(error.to_string())
    }

    /// There is no job of that key.
    pub(crate) fn no_job(key: &str) -> Self {
        Self::Missing(format!(
            "There is no job called “{}” here.",
            crate::say::cut(key, 80)
        ))
    }

    /// The status that tells a program the same.
    pub(crate) fn status(&self) -> StatusCode {
        match self {
            Self::Missing(_) => StatusCode::NOT_FOUND,
            Self::Desk(_) => StatusCode::FORBIDDEN,
            Self::Input(_) => StatusCode::UNPROCESSABLE_ENTITY,
            Self::Photo(Refused::TooLong) => StatusCode::PAYLOAD_TOO_LARGE,
            Self::Photo(Refused::OtherKind { .. }) => StatusCode::UNSUPPORTED_MEDIA_TYPE,
            Self::Photo(_) => StatusCode::UNPROCESSABLE_ENTITY,
            Self::Store(StoreError::NoJob { .. } | StoreError::BadKey { .. }) => {
                StatusCode::NOT_FOUND
            }
            Self::Store(StoreError::UnfitNote { .. } | StoreError::UnfitWalk { .. }) => {
                StatusCode::UNPROCESSABLE_ENTITY
            }
            Self::Store(StoreError::NoWalk { .. }) => StatusCode::NOT_FOUND,
            Self::Store(StoreError::Conflicts(_) | StoreError::WalkDiffers { .. }) => {
                StatusCode::CONFLICT
            }
            Self::Store(StoreError::Busy) => StatusCode::SERVICE_UNAVAILABLE,
            _ => StatusCode::INTERNAL_SERVER_ERROR,
        }
    }
}

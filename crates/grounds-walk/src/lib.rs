//! A spoken walk, read into proposed notes and questions.
pub mod transcript;

//! A general scheduler.

//! Folding notes into a state.

//! Shows a quantity in the unit and fraction of the user.

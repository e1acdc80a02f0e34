//! Messages and work of the operations of the workshop: what is bought, cut, turned and drilled before anything goes into the
//! yard. A file of this name's folder for each subject.

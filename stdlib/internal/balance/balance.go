// Package balance finds where points come to rest that cloth, films and cables
// between them pull and pressure and dead loads push.
//
// A System is made of Patches and Segments; Number numbers its unknowns, Balance
// moves its points. Cloth wrinkles instead of being pushed.
package balance

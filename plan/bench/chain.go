package bench

var chainMethods []Method

package bench

var jointMethods []Method

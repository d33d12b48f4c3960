// The way in: hands the arguments to a command.
return 0;
